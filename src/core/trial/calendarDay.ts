/**
 * Calendar days, `YYYY-MM-DD`, counted in whole days of the Gregorian calendar: no clock and no time zone takes part.
 */
export type CalendarDay = string;

/** Years a trial can lie in. Outside them a date is a slip of the keyboard or a camera clock that was never set. */
export const FIRST_YEAR = 1950;
export const LAST_YEAR = 2149;

const MS_PER_DAY = 86_400_000;

/** Whether the text is a day that exists, written `YYYY-MM-DD`, within 1950..2149. */
export function isCalendarDay(text: string): boolean {
  const parts = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (!parts) return false;
  const year = Number(parts[1]);
  if (year < FIRST_YEAR || year > LAST_YEAR) return false;
  // A day past the end of its month rolls over into the next, so the text comes back changed.
  return new Date(Date.UTC(year, Number(parts[2]) - 1, Number(parts[3]))).toISOString().slice(0, 10) === text;
}

/**
 * Days since 1970-01-01.
 *
 * @throws RangeError if the text is no calendar day
 */
export function dayNumber(day: CalendarDay): number {
  if (!isCalendarDay(day)) throw new RangeError(`a day is written YYYY-MM-DD, got "${day}"`);
  return Date.parse(`${day}T00:00:00Z`) / MS_PER_DAY;
}

/** The day that lies so many whole days after (before, if negative) another. */
export function addDays(day: CalendarDay, days: number): CalendarDay {
  if (!Number.isInteger(days)) throw new RangeError(`days are counted whole, got ${days}`);
  return new Date((dayNumber(day) + days) * MS_PER_DAY).toISOString().slice(0, 10);
}

/** Whole days from one day to another; negative if the second comes first. */
export function daysBetween(from: CalendarDay, to: CalendarDay): number {
  return dayNumber(to) - dayNumber(from);
}
