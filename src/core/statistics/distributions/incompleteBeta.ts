import { devianceTerm, stirlingError } from './logGamma.ts';

/** Two probabilities that add to 1, each with its own relative accuracy. */
export interface Tails {
  readonly lower: number;
  readonly upper: number;
}

/**
 * Regularised incomplete beta function I_x(a, b) and its complement, both accurate in their own tail.
 *
 * The caller gives y = 1 - x as well, so that an x near 1 loses nothing.
 *
 * @param a shape, above 0
 * @param b shape, above 0
 * @param x 0..1
 * @param y 1 - x
 * @see continued fraction: Didonato & Morris 1992, ACM TOMS 18:360, eq. 9; prefactor after Loader 2000
 */
export function incompleteBeta(a: number, b: number, x: number, y: number): Tails {
  if (!(a > 0 && b > 0)) throw new RangeError(`shapes must be above 0, got ${a} and ${b}`);
  if (!(x >= 0 && y >= 0)) throw new RangeError(`x and 1 - x must not be negative, got ${x} and ${y}`);
  if (x === 0) return { lower: 0, upper: 1 };
  if (y === 0) return { lower: 1, upper: 0 };
  if (x <= a / (a + b)) {
    const lower = Math.min(1, betaPower(a, b, x, y) * betaFraction(a, b, x, y));
    return { lower, upper: 1 - lower };
  }
  const upper = Math.min(1, betaPower(b, a, y, x) * betaFraction(b, a, y, x));
  return { lower: 1 - upper, upper };
}

/** x^a y^b / B(a, b) without the cancellation of large log gammas. */
function betaPower(a: number, b: number, x: number, y: number): number {
  const n = a + b;
  const exponent =
    stirlingError(n) - stirlingError(a) - stirlingError(b) - devianceTerm(a, n * x) - devianceTerm(b, n * y);
  return Math.sqrt((a * b) / (2 * Math.PI * n)) * Math.exp(exponent);
}

/** I_x(a, b) divided by betaPower, for x up to a / (a + b), by the modified Lentz method. */
function betaFraction(a: number, b: number, x: number, y: number): number {
  const lambda = a - (a + b) * x;
  const first = (a / (a + 1)) * (lambda + 1);
  let ratio = first;
  let c = first;
  let d = 0;
  for (let n = 1; n < 100_000; n += 1) {
    const odd = a + 2 * n - 1;
    const alpha = ((a + n - 1) / odd) * ((a + b + n - 1) / odd) * n * (b - n) * x * x;
    const beta = n + (n * (b - n) * x) / odd + ((a + n) / (odd + 2)) * (lambda + 1 + n * (1 + y));
    d = 1 / (beta + alpha * d);
    c = beta + alpha / c;
    const step = c * d;
    ratio *= step;
    if (Math.abs(step - 1) < 2e-16) break;
  }
  return 1 / ratio;
}
