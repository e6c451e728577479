export const LOCALE = 'en-GB';

const whole = new Intl.NumberFormat(LOCALE, { maximumFractionDigits: 0 });
const oneDecimal = new Intl.NumberFormat(LOCALE, { minimumFractionDigits: 1, maximumFractionDigits: 1 });
const longDay = new Intl.DateTimeFormat(LOCALE, { dateStyle: 'long', timeZone: 'UTC' });
const shortDay = new Intl.DateTimeFormat(LOCALE, {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  timeZone: 'UTC',
});

/**
 * A share as a percentage without its sign: whole numbers from 10 on, one decimal below.
 *
 * Rounding is to the digit shown (half away from zero). A share that is there but would read 0.0 is "<0.1", and one
 * that is not quite everything but would read 100 is ">99", so that "0" and "100" mean exactly that.
 *
 * @param coverFraction 0..1
 * @throws RangeError outside 0..1 or when it is not a number
 */
export function formatPercent(coverFraction: number): string {
  if (!(coverFraction >= 0 && coverFraction <= 1)) {
    throw new RangeError(`a cover fraction lies within 0 and 1, got ${coverFraction}`);
  }
  if (coverFraction === 0 || coverFraction === 1) return whole.format(coverFraction * 100);
  // 12 significant digits drop the noise of the multiplication, so that 0.145 * 100 is 14.5
  const percent = Number((coverFraction * 100).toPrecision(12));
  if (percent < 0.05) return '<0.1';
  if (percent >= 99.5) return '>99';
  return percent < 9.95 ? oneDecimal.format(percent) : whole.format(percent);
}

/** A count of things with the separators of the language, e.g. "336,881". */
export function formatCount(count: number): string {
  return whole.format(count);
}

/** A length or coordinate with at most one decimal, e.g. "221.7". */
export function formatLength(value: number): string {
  return String(Math.round(value * 10) / 10);
}

/**
 * A calendar day in words, the same in every time zone.
 *
 * @param day `YYYY-MM-DD`
 * @throws RangeError if it is no calendar day
 */
export function formatDay(day: string, style: 'long' | 'short' = 'long'): string {
  const instant = /^\d{4}-\d{2}-\d{2}$/.test(day) ? Date.parse(`${day}T00:00:00Z`) : Number.NaN;
  if (Number.isNaN(instant) || new Date(instant).toISOString().slice(0, 10) !== day) {
    throw new RangeError(`a day is written YYYY-MM-DD, got "${day}"`);
  }
  return (style === 'long' ? longDay : shortDay).format(instant);
}

/** "1 photo", "64 photos". */
export function formatQuantity(count: number, one: string, many: string): string {
  return `${formatCount(count)} ${count === 1 ? one : many}`;
}
