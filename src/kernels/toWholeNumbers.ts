/** Adding this puts the lowest 32 bits of a whole number into the lowest bits of the double. */
const SHIFT: f64 = 6755399441055744.0;

/** Two pairs of whole numbers held as doubles, as four 32-bit ones; what is not a number becomes 0. */
// @ts-ignore: decorator
@inline
export function toWholeNumbers(low: v128, high: v128): v128 {
  const shift = f64x2.splat(SHIFT);
  return i32x4.shuffle(f64x2.add(low, shift), f64x2.add(high, shift), 0, 2, 4, 6);
}

/** The two upper ones of four whole numbers, as doubles. */
// @ts-ignore: decorator
@inline
export function upperAsDoubles(numbers: v128): v128 {
  return f64x2.convert_low_i32x4_s(i32x4.shuffle(numbers, numbers, 2, 3, 2, 3));
}
