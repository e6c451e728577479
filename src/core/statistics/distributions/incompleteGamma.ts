import type { Tails } from './incompleteBeta.ts';
import { devianceTerm, stirlingError } from './logGamma.ts';

/**
 * Regularised incomplete gamma functions P(a, x) and Q(a, x), both accurate in their own tail.
 *
 * @param a shape, above 0
 * @param x 0 or more
 * @see series and continued fraction: Abramowitz & Stegun 1964, 6.5.29 and 6.5.31; prefactor after Loader 2000
 */
export function incompleteGamma(a: number, x: number): Tails {
  if (!(a > 0)) throw new RangeError(`shape must be above 0, got ${a}`);
  if (!(x >= 0)) throw new RangeError(`x must not be negative, got ${x}`);
  if (x === 0) return { lower: 0, upper: 1 };
  if (x === Number.POSITIVE_INFINITY) return { lower: 1, upper: 0 };
  // x^a e^-x / gamma(a + 1)
  const power = Math.exp(-stirlingError(a) - devianceTerm(a, x)) / Math.sqrt(2 * Math.PI * a);
  if (x < a + 1) {
    let term = 1;
    let sum = 1;
    for (let n = 1; n < 100_000 && term > sum * 1e-17; n += 1) {
      term *= x / (a + n);
      sum += term;
    }
    const lower = Math.min(1, power * sum);
    return { lower, upper: 1 - lower };
  }
  let b = x + 1 - a;
  let c = Number.POSITIVE_INFINITY;
  let d = 1 / b;
  let ratio = d;
  for (let n = 1; n < 100_000; n += 1) {
    const alpha = -n * (n - a);
    b += 2;
    d = 1 / (b + alpha * d);
    c = b + alpha / c;
    const step = c * d;
    ratio *= step;
    if (Math.abs(step - 1) < 2e-16) break;
  }
  const upper = Math.min(1, power * a * ratio);
  return { lower: 1 - upper, upper };
}
