import { twoSidedNormal } from './proportionInterval.ts';

/**
 * Points needed so that the interval of a cover has a given half-width: z^2 p (1 - p) / E^2, rounded up.
 *
 * For simple random points; a grid usually needs fewer.
 *
 * @param cover expected share, between 0 and 1
 * @param halfWidth wanted half-width as a share
 */
export function pointsNeeded(cover: number, halfWidth: number, confidence: number): number {
  if (!(cover > 0 && cover < 1)) throw new RangeError(`cover must be between 0 and 1, got ${cover}`);
  if (!(halfWidth > 0)) throw new RangeError(`half-width must be above 0, got ${halfWidth}`);
  return Math.ceil((twoSidedNormal(confidence) ** 2 * cover * (1 - cover)) / (halfWidth * halfWidth));
}

/** Binomial standard error of a cover counted at points, as a share. */
export function pointStandardError(cover: number, points: number): number {
  return Math.sqrt((cover * (1 - cover)) / points);
}

/** Chance that no point at all falls on a class that is there. */
export function chanceToMiss(cover: number, points: number): number {
  return (1 - cover) ** points;
}
