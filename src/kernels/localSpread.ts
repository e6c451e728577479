import { toWholeNumbers, upperAsDoubles } from './toWholeNumbers';

/** Steps fewer that values are brought to before they are squared: as in src/core/features/localSpread.ts. */
const SHIFT: i32 = 3;

/**
 * Standard deviation of a plane over the cells that count in the square round each cell.
 *
 * @param plane 0..32767, a 16-bit number a cell, 0 where it does not count
 * @param counts from `boxCounts` with the same radius
 * @param scratch 4 x `width` 32-bit numbers, then `width` 64-bit ones
 * @param out a signed 16-bit number a cell
 */
export function localSpread(
  plane: usize,
  counts: usize,
  width: i32,
  height: i32,
  radius: i32,
  scratch: usize,
  out: usize,
): void {
  const bytes = <usize>width << 2;
  // down each column: sums below 2^20, squares below 2^32
  const columns = scratch;
  const squares = scratch + bytes;
  const sums = scratch + 2 * bytes;
  const squareSums = scratch + 4 * bytes;
  memory.fill(scratch, 0, 2 * bytes);
  for (let y = -radius; y < height; y += 1) {
    if (y + radius < height) addRow(columns, squares, plane + (<usize>((y + radius) * width) << 1), width);
    const leaving = plane + (<usize>((y - radius - 1) * width) << 1);
    if (y - radius > 0) subtractRow(columns, squares, leaving, width);
    if (y < 0) continue;
    let sum = 0;
    let square: i64 = 0;
    for (let x = 0; x < min(radius, width); x += 1) {
      sum += load<i32>(columns + (<usize>x << 2));
      square += load<u32>(squares + (<usize>x << 2));
    }
    for (let x = 0; x < width; x += 1) {
      if (x + radius < width) {
        sum += load<i32>(columns + (<usize>(x + radius) << 2));
        square += load<u32>(squares + (<usize>(x + radius) << 2));
      }
      store<i32>(sums + (<usize>x << 2), sum);
      store<f64>(squareSums + (<usize>x << 3), <f64>square);
      if (x >= radius) {
        sum -= load<i32>(columns + (<usize>(x - radius) << 2));
        square -= load<u32>(squares + (<usize>(x - radius) << 2));
      }
    }
    const first = <usize>(y * width) << 1;
    spreadRow(sums, squareSums, counts + first, width, out + first);
  }
}

function addRow(columns: usize, squares: usize, row: usize, width: i32): void {
  let x: usize = 0;
  for (; x + 4 <= <usize>width; x += 4) {
    const value = i32x4.shr_s(v128.load_ext<i16>(row + (x << 1)), SHIFT);
    const at = x << 2;
    v128.store(columns + at, i32x4.add(v128.load(columns + at), value));
    v128.store(squares + at, i32x4.add(v128.load(squares + at), i32x4.mul(value, value)));
  }
  for (; x < <usize>width; x += 1) {
    const value = <i32>load<i16>(row + (x << 1)) >> SHIFT;
    const at = x << 2;
    store<i32>(columns + at, load<i32>(columns + at) + value);
    store<i32>(squares + at, load<i32>(squares + at) + value * value);
  }
}

function subtractRow(columns: usize, squares: usize, row: usize, width: i32): void {
  let x: usize = 0;
  for (; x + 4 <= <usize>width; x += 4) {
    const value = i32x4.shr_s(v128.load_ext<i16>(row + (x << 1)), SHIFT);
    const at = x << 2;
    v128.store(columns + at, i32x4.sub(v128.load(columns + at), value));
    v128.store(squares + at, i32x4.sub(v128.load(squares + at), i32x4.mul(value, value)));
  }
  for (; x < <usize>width; x += 1) {
    const value = <i32>load<i16>(row + (x << 1)) >> SHIFT;
    const at = x << 2;
    store<i32>(columns + at, load<i32>(columns + at) - value);
    store<i32>(squares + at, load<i32>(squares + at) - value * value);
  }
}

/** 0 / 0 is not a number and becomes 0. */
function spreadRow(sums: usize, squareSums: usize, counts: usize, width: i32, out: usize): void {
  let x: usize = 0;
  for (; x + 4 <= <usize>width; x += 4) {
    const sum = v128.load(sums + (x << 2));
    const count = v128.load_ext<u16>(counts + (x << 1));
    const squares = squareSums + (x << 3);
    const lower = f64x2.convert_low_i32x4_s(sum);
    const low = pairSpread(lower, v128.load(squares), f64x2.convert_low_i32x4_s(count));
    const high = pairSpread(upperAsDoubles(sum), v128.load(squares, 16), upperAsDoubles(count));
    const whole = toWholeNumbers(low, high);
    v128.store64_lane(out + (x << 1), i16x8.narrow_i32x4_s(whole, whole), 0);
  }
  for (; x < <usize>width; x += 1) {
    const count = <f64>load<u16>(counts + (x << 1));
    const mean = <f64>load<i32>(sums + (x << 2)) / count;
    const variance = load<f64>(squareSums + (x << 3)) / count - mean * mean;
    const spread = count > 0 ? Math.floor(Math.sqrt(max(0, variance)) * <f64>(1 << SHIFT) + 0.5) : 0;
    store<i16>(out + (x << 1), <i16>(<i32>spread));
  }
}

// @ts-ignore: decorator
@inline
function pairSpread(sum: v128, square: v128, count: v128): v128 {
  const mean = f64x2.div(sum, count);
  const variance = f64x2.sub(f64x2.div(square, count), f64x2.mul(mean, mean));
  const spread = f64x2.sqrt(f64x2.max(f64x2.splat(0), variance));
  return f64x2.floor(f64x2.add(f64x2.mul(spread, f64x2.splat(<f64>(1 << SHIFT))), f64x2.splat(0.5)));
}
