const PATTERN = /^(\d{4})-(\d{2})-(\d{2})$/;

/**
 * Days since 1970-01-01 of a calendar day YYYY-MM-DD; null when it is not one (2027-02-30 is not). No time zone enters.
 */
export function dayNumber(day: string): number | null {
  const parts = PATTERN.exec(day);
  if (!parts) return null;
  const [year, month, date] = parts.slice(1).map(Number) as [number, number, number];
  const time = Date.UTC(year, month - 1, date);
  const back = new Date(time);
  if (back.getUTCFullYear() !== year || back.getUTCMonth() !== month - 1 || back.getUTCDate() !== date)
    return null;
  return Math.round(time / 86_400_000);
}

/** Days from one calendar day to another. @throws RangeError when one is not a calendar day */
export function daysBetween(from: string, to: string): number {
  const a = dayNumber(from);
  const b = dayNumber(to);
  if (a === null || b === null) throw new RangeError(`not calendar days YYYY-MM-DD: ${from}, ${to}`);
  return b - a;
}
