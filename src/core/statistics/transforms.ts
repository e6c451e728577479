/** Transformations of a response before its analysis. */
export const TRANSFORMS = ['none', 'arcsine-square-root', 'log'] as const;
export type Transform = (typeof TRANSFORMS)[number];

const DEGREES = 180 / Math.PI;

/**
 * Arcsine square root of a percentage, in degrees: 0 gives 0, 25 gives 30, 100 gives 90.
 *
 * @param percent 0..100
 * @throws RangeError outside that range
 */
export function arcsineSquareRoot(percent: number): number {
  if (!(percent >= 0 && percent <= 100))
    throw new RangeError(`percent must be within 0..100, got ${percent}`);
  // atan2 instead of asin keeps full accuracy near 100
  return Math.atan2(Math.sqrt(percent), Math.sqrt(100 - percent)) * DEGREES;
}

/**
 * Arcsine square root where 0 is replaced by 25 / n and 100 by 100 - 25 / n percent, for counts out of n.
 *
 * @see Bartlett's replacement in Gomez & Gomez 1984, p. 307
 */
export function arcsineSquareRootOfCounts(percent: number, n: number): number {
  if (!(n >= 1)) throw new RangeError(`n must be 1 or more, got ${n}`);
  if (percent === 0) return arcsineSquareRoot(25 / n);
  if (percent === 100) return arcsineSquareRoot(100 - 25 / n);
  return arcsineSquareRoot(percent);
}

/** Value on the scale of the analysis: degrees for arcsine square root, log10(x + 1) for log. */
export function applyTransform(transform: Transform, value: number): number {
  if (transform === 'none') return value;
  if (transform === 'arcsine-square-root') return arcsineSquareRoot(value);
  if (!(value > -1)) throw new RangeError(`log needs values above -1, got ${value}`);
  return Math.log10(value + 1);
}

/** Back to the scale of the response; degrees outside 0..90 (limits of an interval) stay at the end of the scale. */
export function undoTransform(transform: Transform, value: number): number {
  if (transform === 'none') return value;
  if (transform === 'log') return 10 ** value - 1;
  if (value <= 0) return 0;
  if (value >= 90) return 100;
  return 100 * Math.sin(value / DEGREES) ** 2;
}
