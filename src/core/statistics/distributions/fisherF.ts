import { findTailPoint } from './findRoot.ts';
import { incompleteBeta } from './incompleteBeta.ts';
import { checkDegreesOfFreedom } from './studentT.ts';

/** Probability that Fisher's F exceeds f; degrees of freedom above 0, not necessarily whole. */
export function fisherFUpperTail(f: number, numerator: number, denominator: number): number {
  checkDegreesOfFreedom(numerator);
  checkDegreesOfFreedom(denominator);
  if (!(f > 0)) return 1;
  if (f === Number.POSITIVE_INFINITY) return 0;
  const total = denominator + numerator * f;
  return incompleteBeta(denominator / 2, numerator / 2, denominator / total, (numerator * f) / total).lower;
}

/** The f that Fisher's F exceeds with probability alpha. */
export function fisherFCritical(alpha: number, numerator: number, denominator: number): number {
  return findTailPoint((f) => fisherFUpperTail(f, numerator, denominator), alpha, 2);
}
