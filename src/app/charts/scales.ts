import { scaleLinear } from 'd3-scale';
import { formatDecimals } from '../../core/text/charts.ts';
import { type CalendarDay, dayNumber } from '../../core/trial/calendarDay.ts';
import type { Quantity } from './chartTypes.ts';

/** Numbers to pixels, with round ticks. */
export interface ValueScale {
  readonly at: (value: number) => number;
  readonly ticks: readonly { readonly value: number; readonly words: string }[];
  readonly least: number;
  readonly most: number;
}

interface ValueScaleOptions {
  /** Pixel of the least and of the greatest value; the first may be the larger one. */
  readonly pixels: readonly [number, number];
  /** @default 'tight' */
  readonly range?: Quantity['range'];
  /** Whether 0 is always in sight. @default true */
  readonly zero?: boolean;
  /** Least distance of ticks. @default 54 */
  readonly apartPx?: number;
}

/** Values closer than this share of their size differ by the arithmetic only. */
const ROUNDING = 1e-9;

/**
 * A scale that shows all values, ends on round numbers, and never falls together: without values, or with zeros only, it runs from 0 to 1.
 *
 * @param values nulls are left out
 */
export function valueScale(values: readonly (number | null)[], options: ValueScaleOptions): ValueScale {
  const { pixels, range = 'tight', zero = true, apartPx = 54 } = options;
  const known = values.filter((value): value is number => value !== null && Number.isFinite(value));
  let least = Math.min(...(zero ? [0] : []), ...(known.length > 0 ? [minimum(known)] : [0]));
  let most = Math.max(...(zero ? [0] : []), ...(known.length > 0 ? [maximum(known)] : [0]));
  if (range === 'percent') {
    least = Math.min(0, least);
    most = Math.max(100, most);
  }
  if (most - least <= ROUNDING * Math.max(1, Math.abs(least), Math.abs(most))) {
    if (zero) most = least + 1;
    else {
      const room = Math.abs(least) > ROUNDING ? Math.abs(least) / 10 : 1;
      least -= room;
      most += room;
    }
  }
  const count = Math.max(2, Math.floor(Math.abs(pixels[1] - pixels[0]) / apartPx));
  const scale = scaleLinear()
    .domain([least, most])
    .nice(Math.max(8, count * 2))
    .range(pixels);
  const ticks = scale.ticks(count);
  const step = ticks.length > 1 ? Math.abs(ticks[1]! - ticks[0]!) : 1;
  const decimals = Math.min(10, Math.max(0, Math.ceil(-Math.log10(step) - 1e-9)));
  const [from, to] = scale.domain() as [number, number];
  return {
    at: scale,
    ticks: ticks.map((value) => ({ value, words: formatDecimals(value, decimals) })),
    least: from,
    most: to,
  };
}

/** Calendar days to pixels. */
export interface DayScale {
  readonly at: (day: CalendarDay) => number;
  readonly firstDay: CalendarDay;
  readonly lastDay: CalendarDay;
}

/**
 * @param days all days that are to be seen, in any order, at least one
 * @throws RangeError without days
 */
export function dayScale(days: readonly CalendarDay[], pixels: readonly [number, number]): DayScale {
  if (days.length === 0) throw new RangeError('a time axis needs a day, got none');
  const sorted = [...days].sort();
  const [firstDay, lastDay] = [sorted[0]!, sorted.at(-1)!];
  const [from, to] = [dayNumber(firstDay), dayNumber(lastDay)];
  const middle = (pixels[0] + pixels[1]) / 2;
  const scale = scaleLinear().domain([from, to]).range(pixels);
  return { at: (day) => (from === to ? middle : scale(dayNumber(day))), firstDay, lastDay };
}

const minimum = (values: readonly number[]) => values.reduce((a, b) => Math.min(a, b));
const maximum = (values: readonly number[]) => values.reduce((a, b) => Math.max(a, b));
