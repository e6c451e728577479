/** Region-dependent ways of writing: this one place knows the locale. Files (CSV, archives) are written by ISO and never by it. */
const FALLBACK = 'en-GB';

let locale = FALLBACK;
/** Numbers are typed with a decimal point, so they are shown with one: a locale with a comma gives its days only. */
let numberLocale = FALLBACK;

/**
 * The locale to write in: the first of the person's languages that is the language of the page, so that the words keep
 * their language and days and numbers follow the region.
 *
 * @param pageLanguage of the catalogue, e.g. "en"
 * @param preferred BCP 47 tags, the most preferred first
 */
export function chooseLocale(pageLanguage: string, preferred: readonly string[]): string {
  const isOfPage = (tag: string) =>
    tag.toLowerCase().split('-')[0] === pageLanguage.toLowerCase().split('-')[0];
  return (
    preferred.find((tag) => isOfPage(tag) && Intl.NumberFormat.supportedLocalesOf(tag).length > 0) ??
    (isOfPage(FALLBACK) ? FALLBACK : pageLanguage)
  );
}

/** Called once, before anything is shown. */
export function setLocale(tag: string): void {
  locale = tag;
  numberLocale = new Intl.NumberFormat(tag).format(1.5) === '1.5' ? tag : FALLBACK;
}

/** A formatter made when it is first wanted, and again after the locale has changed. */
function localized<T>(make: (locale: string, numberLocale: string) => T): () => T {
  let made: T | null = null;
  let madeFor = '';
  return () => {
    if (made === null || madeFor !== locale) {
      made = make(locale, numberLocale);
      madeFor = locale;
    }
    return made;
  };
}

const numbers = (options: Intl.NumberFormatOptions) =>
  localized((_, tag) => new Intl.NumberFormat(tag, options));
const times = (options: Intl.DateTimeFormatOptions) =>
  localized((tag) => new Intl.DateTimeFormat(tag, options));

const whole = numbers({ maximumFractionDigits: 0 });
const oneDecimal = numbers({ minimumFractionDigits: 1, maximumFractionDigits: 1 });
const signed = numbers({ minimumFractionDigits: 1, maximumFractionDigits: 1, signDisplay: 'exceptZero' });
const longDay = times({ dateStyle: 'long', timeZone: 'UTC' });
const shortDay = times({ day: 'numeric', month: 'short', year: 'numeric', timeZone: 'UTC' });
const dayAndMonth = times({ day: 'numeric', month: 'short', timeZone: 'UTC' });
const clock = times({ hour: '2-digit', minute: '2-digit' });
const mediumInstant = times({ dateStyle: 'medium', timeStyle: 'short' });
const longInstant = times({ dateStyle: 'long', timeStyle: 'short' });
const conjunction = localized((tag) => new Intl.ListFormat(tag, { type: 'conjunction' }));

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
  if (coverFraction === 0 || coverFraction === 1) return whole().format(coverFraction * 100);
  // 12 significant digits drop the noise of the multiplication, so that 0.145 * 100 is 14.5
  const percent = Number((coverFraction * 100).toPrecision(12));
  if (percent < 0.05) return '<0.1';
  if (percent >= 99.5) return '>99';
  return percent < 9.95 ? oneDecimal().format(percent) : whole().format(percent);
}

/**
 * A count of things with the separators of the language, e.g. "336,881"; parted by a narrow space where its comma would be
 * a decimal one.
 */
export function formatCount(count: number): string {
  const written = whole().format(count);
  return numberLocale === locale ? written : written.replaceAll(',', '\u202f');
}

/** A length or coordinate with at most one decimal, e.g. "221.7". */
export function formatLength(value: number): string {
  return String(Math.round(value * 10) / 10);
}

/** A number as short as it can be told with 4 significant digits. */
export function formatAmount(amount: number): string {
  return String(Number(amount.toPrecision(4)));
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
  return (style === 'long' ? longDay : shortDay)().format(instant);
}

/** "1 photo", "64 photos". */
export function formatQuantity(count: number, one: string, many: string): string {
  return `${formatCount(count)} ${count === 1 ? one : many}`;
}

/** A day without its year, "12 Apr", for a scale that tells the year elsewhere. @param day `YYYY-MM-DD` */
export function formatDayAndMonth(day: string): string {
  return dayAndMonth().format(new Date(`${day}T00:00:00Z`));
}

/** Day and time of an instant where the person is. @param instant ISO 8601 */
export function formatInstant(instant: string, style: 'long' | 'medium' = 'medium'): string {
  return (style === 'long' ? longInstant : mediumInstant)().format(new Date(instant));
}

/** Time of the day of an instant where the person is, "14:05". @param instant ISO 8601 */
export function formatTime(instant: string): string {
  return clock().format(new Date(instant));
}

/** "A, B and C". */
export function formatList(words: readonly string[]): string {
  return conjunction().format(words);
}

/** One decimal with its sign, "+2.4"; zero has none. */
export function formatSigned(value: number): string {
  return signed().format(value);
}

const decimals = new Map<number, () => Intl.NumberFormat>();

/** A number with a fixed count of decimals, a true minus sign and no "-0". */
export function formatDecimals(value: number, digits: number): string {
  let format = decimals.get(digits);
  if (!format) {
    format = numbers({
      minimumFractionDigits: digits,
      maximumFractionDigits: digits,
      signDisplay: 'negative',
    });
    decimals.set(digits, format);
  }
  return format().format(value).replace('-', '−');
}

/** Bytes as people say them, "24 MB": by thousands, as file managers do. */
export function formatBytes(bytes: number): string {
  if (bytes < 1e3) return formatQuantity(bytes, 'byte', 'bytes');
  if (bytes < 1e6) return `${Math.round(bytes / 1e3)} kB`;
  return bytes < 1e9 ? `${Math.round(bytes / 1e6)} MB` : `${(bytes / 1e9).toFixed(1)} GB`;
}
