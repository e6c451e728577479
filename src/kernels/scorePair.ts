import { toWholeNumbers } from './toWholeNumbers';

/** Cells that go through the terms together: each term is fetched once for all of them. */
const TOGETHER: usize = 4;

/**
 * Two quadratic polynomials of the features at each cell, rounded down. One lies in the lower half of every
 * vector, the
 * other in the upper: the order of the operations on each is that of the plain version.
 *
 * @param planes `size` planes of signed 16-bit numbers, one after the other
 * @param measured a byte a cell; 0: both scores are 0
 * @param cells a multiple of 4
 * @param size number of features
 * @param terms both constants, then for each feature its linear terms and the row of its square terms: pairs
 *   of doubles
 * @param scratch 64 bytes a feature
 * @param outA a 32-bit number a cell
 * @param outB a 32-bit number a cell
 */
export function scorePair(
  planes: usize,
  measured: usize,
  cells: usize,
  size: usize,
  terms: usize,
  scratch: usize,
  outA: usize,
  outB: usize,
): void {
  const constant = v128.load(terms);
  for (let cell: usize = 0; cell < cells; cell += TOGETHER) {
    const counted = load<u32>(measured + cell);
    if (counted == 0) {
      v128.store(outA + (cell << 2), i32x4.splat(0));
      v128.store(outB + (cell << 2), i32x4.splat(0));
      continue;
    }
    for (let f: usize = 0; f < size; f += 1) {
      const values = v128.load_ext<i16>(planes + ((f * cells + cell) << 1));
      const low = f64x2.convert_low_i32x4_s(values);
      const high = f64x2.convert_low_i32x4_s(i32x4.shuffle(values, values, 2, 3, 2, 3));
      const at = scratch + (f << 6);
      v128.store(at, i64x2.shuffle(low, low, 0, 0));
      v128.store(at, i64x2.shuffle(low, low, 1, 1), 16);
      v128.store(at, i64x2.shuffle(high, high, 0, 0), 32);
      v128.store(at, i64x2.shuffle(high, high, 1, 1), 48);
    }
    let score0 = constant;
    let score1 = constant;
    let score2 = constant;
    let score3 = constant;
    let term = terms + 16;
    const end = scratch + (size << 6);
    for (let i = scratch; i < end; i += 64) {
      const linear = v128.load(term);
      let factor0 = linear;
      let factor1 = linear;
      let factor2 = linear;
      let factor3 = linear;
      term += 16;
      for (let j = i; j < end; j += 64) {
        const square = v128.load(term);
        factor0 = f64x2.add(factor0, f64x2.mul(square, v128.load(j)));
        factor1 = f64x2.add(factor1, f64x2.mul(square, v128.load(j, 16)));
        factor2 = f64x2.add(factor2, f64x2.mul(square, v128.load(j, 32)));
        factor3 = f64x2.add(factor3, f64x2.mul(square, v128.load(j, 48)));
        term += 16;
      }
      score0 = f64x2.add(score0, f64x2.mul(factor0, v128.load(i)));
      score1 = f64x2.add(score1, f64x2.mul(factor1, v128.load(i, 16)));
      score2 = f64x2.add(score2, f64x2.mul(factor2, v128.load(i, 32)));
      score3 = f64x2.add(score3, f64x2.mul(factor3, v128.load(i, 48)));
    }
    // a, b, a, b of two cells each
    const first = toWholeNumbers(f64x2.floor(score0), f64x2.floor(score1));
    const second = toWholeNumbers(f64x2.floor(score2), f64x2.floor(score3));
    const flags = i32x4.extend_low_i16x8_u(i16x8.extend_low_i8x16_u(i32x4.splat(counted)));
    const kept = i32x4.ne(flags, i32x4.splat(0));
    v128.store(outA + (cell << 2), v128.and(kept, i32x4.shuffle(first, second, 0, 2, 4, 6)));
    v128.store(outB + (cell << 2), v128.and(kept, i32x4.shuffle(first, second, 1, 3, 5, 7)));
  }
}
