/** Area under a curve of ratings over time. */
export interface AreaUnderCurve {
  /** Value x days, by trapezoids. 0 for one date. */
  readonly area: number;
  /** Area over its span in days: the average value over time; null for one date. */
  readonly meanOverTime: number | null;
}

/**
 * Area under the curve of one plot's ratings (trapezoid rule), for uneven intervals too.
 *
 * @param days rising
 * @param values one for each day, on the scale of the rating
 * @throws RangeError on no dates, unequal lengths or days that do not rise
 * @see Campbell & Madden 1990, Introduction to Plant Disease Epidemiology
 */
export function areaUnderCurve(days: readonly number[], values: readonly number[]): AreaUnderCurve {
  if (days.length === 0 || days.length !== values.length) {
    throw new RangeError(`one value is needed for each day, got ${values.length} for ${days.length}`);
  }
  let area = 0;
  for (let i = 1; i < days.length; i += 1) {
    const span = days[i]! - days[i - 1]!;
    if (!(span > 0)) throw new RangeError(`days must rise, got ${days[i]} after ${days[i - 1]}`);
    area += (span * (values[i]! + values[i - 1]!)) / 2;
  }
  const span = days[days.length - 1]! - days[0]!;
  return { area, meanOverTime: span > 0 ? area / span : null };
}
