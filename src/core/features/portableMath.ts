/**
 * Exponential and logarithm from + - * / alone.
 *
 * These four are exactly rounded everywhere, while Math.exp and Math.log may differ in the last bit between engines. What
 * decides a label goes through these, so that page and command line give the same bytes. Relative error below 1e-14.
 */

const { LN2 } = Math;

/** Powers of a half, by exact halving. */
const HALVES: readonly number[] = (() => {
  const powers = [1];
  while (powers[powers.length - 1]! > 0) powers.push(powers[powers.length - 1]! / 2);
  return powers;
})();

/** 1 / n!: the series of the exponential, long enough for |x| <= ln 2 / 2. */
const TAYLOR: readonly number[] = (() => {
  const terms = [1];
  for (let n = 1; n <= 14; n += 1) terms.push(terms[n - 1]! / n);
  return terms;
})();

/** e to a power of 0 or less; 0 where that is too small for a number. */
export function portableExp(power: number): number {
  if (!(power <= 0)) throw new RangeError(`power must be 0 or less, got ${power}`);
  const halvings = Math.round(-power / LN2);
  if (halvings >= HALVES.length) return 0;
  const rest = power + halvings * LN2;
  let sum = 0;
  for (let term = TAYLOR.length - 1; term >= 0; term -= 1) sum = sum * rest + TAYLOR[term]!;
  return sum * HALVES[halvings]!;
}

/** Natural logarithm of a number above 0. */
export function portableLog(value: number): number {
  if (!(value > 0 && value < Number.POSITIVE_INFINITY)) {
    throw new RangeError(`value must be above 0 and finite, got ${value}`);
  }
  let mantissa = value;
  let doublings = 0;
  for (; mantissa > 1.5; doublings += 1) mantissa /= 2;
  for (; mantissa <= 0.75; doublings -= 1) mantissa *= 2;
  // ln m = 2 artanh((m - 1) / (m + 1)), and |(m - 1) / (m + 1)| <= 1 / 5
  const ratio = (mantissa - 1) / (mantissa + 1);
  const square = ratio * ratio;
  let sum = 0;
  for (let term = 23; term > 0; term -= 2) sum = 1 / term + square * sum;
  return doublings * LN2 + 2 * ratio * sum;
}
