import { toWholeNumbers } from './toWholeNumbers';

/** What a pixel that is not measured is called while labels are counted. */
const NOT_MEASURED: u8 = 255;

/**
 * Ground weights of a row of pixels: largest / d^3, rounded, at least 1, where d = slope * (x + 0.5) + atRow.
 *
 * @param count a multiple of 8
 * @param out an unsigned 16-bit number a pixel
 */
export function groundWeights(
  slope: f64,
  atRow: f64,
  left: f64,
  count: usize,
  largest: f64,
  out: usize,
): void {
  let middle = f64x2.add(f64x2.splat(left + 0.5), i64x2.shuffle(f64x2.splat(0), f64x2.splat(1), 0, 2));
  for (let x: usize = 0; x < count; x += 8) {
    const first = fourWeights(middle, slope, atRow, largest);
    const second = fourWeights(f64x2.add(middle, f64x2.splat(4)), slope, atRow, largest);
    v128.store(out + (x << 1), i16x8.narrow_i32x4_u(first, second));
    middle = f64x2.add(middle, f64x2.splat(8));
  }
}

// @ts-ignore: decorator
@inline
function fourWeights(middle: v128, slope: f64, atRow: f64, largest: f64): v128 {
  const low = twoWeights(middle, slope, atRow, largest);
  const high = twoWeights(f64x2.add(middle, f64x2.splat(2)), slope, atRow, largest);
  return i32x4.max_s(toWholeNumbers(low, high), i32x4.splat(1));
}

// @ts-ignore: decorator
@inline
function twoWeights(middle: v128, slope: f64, atRow: f64, largest: f64): v128 {
  const distance = f64x2.add(f64x2.mul(f64x2.splat(slope), middle), f64x2.splat(atRow));
  const ratio = f64x2.div(f64x2.splat(1), distance);
  const cube = f64x2.mul(f64x2.mul(ratio, ratio), ratio);
  return f64x2.trunc(f64x2.add(f64x2.mul(f64x2.splat(largest), cube), f64x2.splat(0.5)));
}

/**
 * Adds a row's measured pixels and their ground to the counts of their labels 0..labelCount - 1.
 *
 * @param labels a byte a pixel; overwritten where not measured
 * @param inside a byte a pixel: 0 where not measured
 * @param weights from `groundWeights`
 * @param count a multiple of 16
 * @param labelCount at most 16
 * @param pixels a 32-bit number a label
 * @param ground a 64-bit number a label
 */
export function countLabels(
  labels: usize,
  inside: usize,
  weights: usize,
  count: usize,
  labelCount: i32,
  pixels: usize,
  ground: usize,
): void {
  for (let x: usize = 0; x < count; x += 16) {
    const outside = i8x16.eq(v128.load(inside + x), i8x16.splat(0));
    v128.store(labels + x, v128.bitselect(i8x16.splat(NOT_MEASURED), v128.load(labels + x), outside));
  }
  for (let label = 0; label < labelCount; label += 1) {
    const wanted = i8x16.splat(<i8>label);
    let sums = i32x4.splat(0);
    let found = 0;
    for (let x: usize = 0; x < count; x += 16) {
      const same = i8x16.eq(v128.load(labels + x), wanted);
      found += popcnt(i8x16.bitmask(same));
      const low = v128.and(v128.load(weights + (x << 1)), i16x8.extend_low_i8x16_s(same));
      const high = v128.and(v128.load(weights + (x << 1), 16), i16x8.extend_high_i8x16_s(same));
      sums = i32x4.add(sums, i32x4.extadd_pairwise_i16x8_u(low));
      sums = i32x4.add(sums, i32x4.extadd_pairwise_i16x8_u(high));
    }
    const pixel = pixels + (<usize>label << 2);
    store<u32>(pixel, load<u32>(pixel) + found);
    const sum =
      <u64>(<u32>i32x4.extract_lane(sums, 0)) +
      <u64>(<u32>i32x4.extract_lane(sums, 1)) +
      <u64>(<u32>i32x4.extract_lane(sums, 2)) +
      <u64>(<u32>i32x4.extract_lane(sums, 3));
    const at = ground + (<usize>label << 3);
    store<u64>(at, load<u64>(at) + sum);
  }
}
