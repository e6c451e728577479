import { isCalendarDay } from '../trial/calendarDay.ts';

export interface PlotAndDate {
  readonly plot: string | null;
  /** YYYY-MM-DD. */
  readonly ratingDate: string | null;
}

/**
 * What a photo's name tells of its plot and rating date: `YYYY-MM-DD_PLOT.jpg`.
 *
 * Anything else, and a day that is not in the calendar, tells nothing: a plot under a wrong date would be worse.
 *
 * @param name with or without folders; PLOT is letters, digits, '-' and '.' in any script
 */
export function plotAndDateFromName(name: string): PlotAndDate {
  const file = name.slice(Math.max(name.lastIndexOf('/'), name.lastIndexOf('\\')) + 1);
  const match = /^(\d{4}-\d{2}-\d{2})_([\p{L}\p{N}][\p{L}\p{N}.-]*)\.[A-Za-z0-9]+$/u.exec(file);
  if (!match || !isCalendarDay(match[1]!)) return { plot: null, ratingDate: null };
  return { plot: match[2]!, ratingDate: match[1]! };
}
