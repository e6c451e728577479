import { findTailPoint } from './findRoot.ts';
import { incompleteGamma } from './incompleteGamma.ts';
import { checkDegreesOfFreedom } from './studentT.ts';

/** Probability that a chi-square variable exceeds x; degrees of freedom above 0. */
export function chiSquareUpperTail(x: number, degreesOfFreedom: number): number {
  checkDegreesOfFreedom(degreesOfFreedom);
  return x > 0 ? incompleteGamma(degreesOfFreedom / 2, x / 2).upper : 1;
}

/** The x that a chi-square variable exceeds with probability alpha. */
export function chiSquareCritical(alpha: number, degreesOfFreedom: number): number {
  return findTailPoint((x) => chiSquareUpperTail(x, degreesOfFreedom), alpha, degreesOfFreedom);
}
