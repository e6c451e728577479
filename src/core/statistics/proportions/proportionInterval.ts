import { findRoot } from '../distributions/findRoot.ts';
import { incompleteBeta } from '../distributions/incompleteBeta.ts';
import { normalQuantile } from '../distributions/normal.ts';
import { checkCounts } from './checkCounts.ts';

/** Bounds of a share, 0..1. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

/**
 * Wilson score interval for a proportion, used for cover counted at points.
 *
 * Assumes independent points. A systematic grid is usually more precise than this says, unless a pattern in the turf (mowing
 * stripes, core holes) keeps step with the grid.
 *
 * @param hits points called as the class, 0..points
 * @param points points judged, 1 or more; indeterminate points are left out and reported apart
 * @param confidence e.g. 0.95
 * @throws RangeError if hits is not within 0..points
 * @see Wilson 1927, J. Am. Stat. Assoc. 22:209
 */
export function wilsonInterval(hits: number, points: number, confidence: number): Interval {
  checkCounts(hits, points, confidence);
  const z = twoSidedNormal(confidence);
  return wilsonFromSquare(hits, points, z * z);
}

/** Wilson's interval for a squared critical value; the building block of Goodman's simultaneous one. */
export function wilsonFromSquare(hits: number, points: number, square: number): Interval {
  const misses = points - hits;
  const root = Math.sqrt(square * (square + (4 * hits * misses) / points));
  const bottom = 2 * (points + square);
  return {
    low: hits === 0 ? 0 : (2 * hits + square - root) / bottom,
    high: misses === 0 ? 1 : (2 * hits + square + root) / bottom,
  };
}

/**
 * Exact (Clopper-Pearson) interval: coverage never below the stated one, so wider than Wilson's.
 *
 * @see Clopper & Pearson 1934, Biometrika 26:404
 */
export function clopperPearsonInterval(hits: number, points: number, confidence: number): Interval {
  checkCounts(hits, points, confidence);
  const tail = (1 - confidence) / 2;
  return {
    low: hits === 0 ? 0 : betaQuantile(tail, hits, points - hits + 1),
    high: hits === points ? 1 : 1 - betaQuantile(tail, points - hits, hits + 1),
  };
}

/**
 * Jeffreys interval: equal tails of the posterior under a beta(1/2, 1/2) prior; 0 and 1 at the ends of the range.
 *
 * @see Brown, Cai & DasGupta 2001, Stat. Sci. 16:101
 */
export function jeffreysInterval(hits: number, points: number, confidence: number): Interval {
  checkCounts(hits, points, confidence);
  const tail = (1 - confidence) / 2;
  const misses = points - hits;
  return {
    low: hits === 0 ? 0 : betaQuantile(tail, hits + 0.5, misses + 0.5),
    high: misses === 0 ? 1 : 1 - betaQuantile(tail, misses + 0.5, hits + 0.5),
  };
}

/** Normal quantile that |Z| stays below with the given confidence. */
export function twoSidedNormal(confidence: number): number {
  return -normalQuantile((1 - confidence) / 2);
}

/** The x below which a beta variable falls with a (small) probability. */
function betaQuantile(probability: number, a: number, b: number): number {
  const lower = (x: number): number => incompleteBeta(a, b, x, 1 - x).lower - probability;
  return findRoot(lower, 0, 1, 1e-15);
}
