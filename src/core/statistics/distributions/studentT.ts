import { findTailPoint } from './findRoot.ts';
import { incompleteBeta } from './incompleteBeta.ts';
import { normalQuantile } from './normal.ts';

/**
 * Probability that |T| exceeds |t| under Student's t distribution (two-sided p).
 *
 * @param t test statistic
 * @param degreesOfFreedom above 0; need not be whole
 */
export function studentTTwoSided(t: number, degreesOfFreedom: number): number {
  checkDegreesOfFreedom(degreesOfFreedom);
  const square = t * t;
  if (square === Number.POSITIVE_INFINITY) return 0;
  const total = degreesOfFreedom + square;
  return incompleteBeta(degreesOfFreedom / 2, 0.5, degreesOfFreedom / total, square / total).lower;
}

/** The t that |T| exceeds with the given probability, e.g. 0.05 for the usual two-sided critical value. */
export function studentTCritical(alpha: number, degreesOfFreedom: number): number {
  checkDegreesOfFreedom(degreesOfFreedom);
  const start = Math.max(0.1, -normalQuantile(alpha / 2));
  return findTailPoint((t) => studentTTwoSided(t, degreesOfFreedom), alpha, start);
}

/** @throws RangeError unless above 0 */
export function checkDegreesOfFreedom(degreesOfFreedom: number): void {
  if (!(degreesOfFreedom > 0))
    throw new RangeError(`degrees of freedom must be above 0, got ${degreesOfFreedom}`);
}
