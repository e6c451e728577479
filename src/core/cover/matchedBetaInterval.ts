import { findRoot } from '../statistics/distributions/findRoot.ts';
import { incompleteBeta } from '../statistics/distributions/incompleteBeta.ts';
import type { Interval } from '../statistics/proportions/proportionInterval.ts';

/**
 * Interval of a share from its mean and variance: the central part of the beta distribution that has them.
 *
 * Stays within 0..1 and leans away from the ends, which a normal interval does not. With a variance that no
 * distribution on 0..1 has (or none at all at an end) everything is possible: 0 to 1.
 *
 * @param mean 0..1
 * @param variance above 0
 */
export function matchedBetaInterval(mean: number, variance: number, confidence: number): Interval {
  const size = (mean * (1 - mean)) / variance - 1;
  if (!(size > 0 && Number.isFinite(size))) return { low: 0, high: 1 };
  const [a, b] = [mean * size, (1 - mean) * size];
  const tail = (1 - confidence) / 2;
  const quantile = (of: (x: number) => number): number => findRoot((x) => of(x) - tail, 0, 1, 1e-12);
  return {
    low: quantile((x) => incompleteBeta(a, b, x, 1 - x).lower),
    high: 1 - quantile((x) => incompleteBeta(b, a, x, 1 - x).lower),
  };
}
