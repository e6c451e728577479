import { integratePanels } from './gaussLegendre.ts';
import { stirlingError } from './logGamma.ts';

/** exp of this is what is left out at either end of the integral, relative to its largest value. */
const NEGLIGIBLE = 42;
/** exp of less than this is 0. */
const SMALLEST_LOG = -740;

/**
 * Upper tail of a variable W divided by an independent estimate of its standard deviation.
 *
 * P(W / s > q), with df s^2 chi-square on df degrees of freedom, by integration over u = log s between the points where the
 * integrand has fallen to exp(-42) of its peak. Infinite degrees of freedom give the tail of W itself.
 *
 * @param logTail log P(W > w), falling
 */
export function studentizedTail(logTail: (w: number) => number, q: number, degreesOfFreedom: number): number {
  if (!(q > 0)) return 1;
  if (degreesOfFreedom === Number.POSITIVE_INFINITY) return Math.exp(logTail(q));
  const half = degreesOfFreedom / 2;
  const logIntegrand = (u: number): number =>
    degreesOfFreedom * u - half * Math.expm1(2 * u) + logTail(q * Math.exp(u));
  const peak = highestPoint(logIntegrand, -4 - Math.log1p(q) - 8 / degreesOfFreedom, 1.5);
  const top = logIntegrand(peak);
  if (top < SMALLEST_LOG) return 0;
  const level = top - NEGLIGIBLE;
  const low = crossing(logIntegrand, peak, -Math.min(1, 4 / Math.sqrt(degreesOfFreedom)), level);
  const high = crossing(logIntegrand, peak, Math.min(1, 4 / Math.sqrt(degreesOfFreedom)), level);
  const panels = Math.max(10, Math.ceil((high - low) / 0.4));
  const scaled = integratePanels((u) => Math.exp(logIntegrand(u) - top), low, high, panels);
  // density of u at 0 is 2 (half)^half exp(-half) / gamma(half) = sqrt(2 half 2 / (2 pi)) / exp(stirlingError(half))
  const atZero = Math.sqrt((2 * half) / Math.PI) * Math.exp(-stirlingError(half));
  return Math.min(1, atZero * scaled * Math.exp(top));
}

/** Golden section search for the largest value of a function with one peak. */
function highestPoint(f: (x: number) => number, low: number, high: number): number {
  const golden = (Math.sqrt(5) - 1) / 2;
  let a = low;
  let b = high;
  let c = b - golden * (b - a);
  let d = a + golden * (b - a);
  let fc = f(c);
  let fd = f(d);
  while (b - a > 1e-3) {
    if (fc > fd || fd === Number.NEGATIVE_INFINITY) {
      b = d;
      d = c;
      fd = fc;
      c = b - golden * (b - a);
      fc = f(c);
    } else {
      a = c;
      c = d;
      fc = fd;
      d = a + golden * (b - a);
      fd = f(d);
    }
  }
  return (a + b) / 2;
}

/** Where the function has fallen to the level, going from the start in steps that grow, then halving. */
function crossing(f: (x: number) => number, start: number, step: number, level: number): number {
  let inside = start;
  let outside = start + step;
  for (let width = step; f(outside) > level; width *= 1.5) {
    inside = outside;
    outside += width;
  }
  for (let n = 0; n < 12; n += 1) {
    const middle = (inside + outside) / 2;
    if (f(middle) > level) inside = middle;
    else outside = middle;
  }
  return outside;
}
