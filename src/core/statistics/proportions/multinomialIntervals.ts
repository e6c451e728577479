import { chiSquareCritical } from '../distributions/chiSquare.ts';
import { checkCounts } from './checkCounts.ts';
import { type Interval, wilsonFromSquare } from './proportionInterval.ts';

/**
 * Goodman's simultaneous intervals for the shares of several classes: all hold together with the stated confidence.
 *
 * @param counts points of each class, 2 classes or more
 * @see Goodman 1965, Technometrics 7:247
 */
export function goodmanIntervals(counts: readonly number[], confidence: number): Interval[] {
  const points = total(counts, confidence);
  const square = chiSquareCritical((1 - confidence) / counts.length, 1);
  return counts.map((count) => wilsonFromSquare(count, points, square));
}

/**
 * Quesenberry and Hurst's simultaneous intervals: wider than Goodman's, for any contrast of classes.
 *
 * @see Quesenberry & Hurst 1964, Technometrics 6:191
 */
export function quesenberryHurstIntervals(counts: readonly number[], confidence: number): Interval[] {
  const points = total(counts, confidence);
  const square = chiSquareCritical(1 - confidence, counts.length - 1);
  return counts.map((count) => wilsonFromSquare(count, points, square));
}

function total(counts: readonly number[], confidence: number): number {
  if (counts.length < 2) throw new RangeError(`2 classes or more are needed, got ${counts.length}`);
  const points = counts.reduce((sum, count) => sum + count, 0);
  for (const count of counts) checkCounts(count, points, confidence);
  return points;
}
