import { incompleteBeta } from './incompleteBeta.ts';
import { logGamma } from './logGamma.ts';
import { checkDegreesOfFreedom } from './studentT.ts';

/**
 * Probability that a non-central F variable exceeds f: the power of an F test, and with numerator 1 of a two-sided t test.
 *
 * Poisson mixture of central beta tails, summed outwards from the largest weight until 1e-15 of the weight is left.
 *
 * @param f critical value
 * @param nonCentrality sum of squared true effects over the error variance, 0 or more
 * @see Johnson, Kotz & Balakrishnan 1995, Continuous Univariate Distributions 2, chapter 30
 */
export function noncentralFUpperTail(
  f: number,
  numerator: number,
  denominator: number,
  nonCentrality: number,
): number {
  checkDegreesOfFreedom(numerator);
  checkDegreesOfFreedom(denominator);
  if (!(nonCentrality >= 0))
    throw new RangeError(`non-centrality must not be negative, got ${nonCentrality}`);
  if (!(f > 0)) return 1;
  const half = nonCentrality / 2;
  const total = denominator + numerator * f;
  const weight = (j: number): number =>
    half === 0 ? (j === 0 ? 1 : 0) : Math.exp(j * Math.log(half) - half - logGamma(j + 1));
  const tail = (j: number): number =>
    incompleteBeta(denominator / 2, numerator / 2 + j, denominator / total, (numerator * f) / total).lower;
  const middle = Math.floor(half);
  let sum = 0;
  for (let j = middle; j >= 0; j -= 1) {
    const w = weight(j);
    if (w < 1e-18) break;
    sum += w * tail(j);
  }
  for (let j = middle + 1; ; j += 1) {
    const w = weight(j);
    if (w < 1e-18) break;
    sum += w * tail(j);
  }
  return Math.min(1, sum);
}
