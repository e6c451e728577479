import { formatLength } from './format.ts';

/** What lengths and temperatures are told in beside the units they are kept in. */
export type UnitSystem = 'metric' | 'us';

let system: UnitSystem = 'metric';

/** Called once, before anything is shown. */
export function setUnitSystem(next: UnitSystem): void {
  system = next;
}

/** By the region of a locale: US customary units for the United States, else metric. */
export const unitSystemOf = (locale: string): UnitSystem => (/-US\b/i.test(locale) ? 'us' : 'metric');

const INCH_MM = 25.4;
const FOOT_MM = 12 * INCH_MM;

/** A length in inches below 3 ft, else in feet; null where metric units are asked for. */
export function usLength(millimetres: number): string | null {
  if (system === 'metric') return null;
  return millimetres < 3 * FOOT_MM
    ? `${threeDigits(millimetres / INCH_MM)} in`
    : `${threeDigits(millimetres / FOOT_MM)} ft`;
}

/** A temperature in degrees Fahrenheit; null where metric units are asked for. */
export function usTemperature(celsius: number): string | null {
  return system === 'metric' ? null : `${formatLength((celsius * 9) / 5 + 32)} °F`;
}

/** Words with what they are in other units behind them, in brackets; the words alone where there is nothing to add. */
export const withUsUnits = (words: string, inUsUnits: string | null): string =>
  inUsUnits === null ? words : `${words} (${inUsUnits})`;

const threeDigits = (value: number) => String(Number(value.toPrecision(3)));
