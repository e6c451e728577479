import { readUnit } from './unit.ts';

const AMOUNT = /^\s*([+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+))\s*(\S.*?)\s*$/;

/**
 * A length typed with its unit ("18 in", "1.5 ft", "0.5 m") in millimetres.
 *
 * @returns null where no unit of length was typed; a bare number is left to the field, whose unit it has
 */
export function typedMillimetres(typed: string): number | null {
  const [, amount, unit] = AMOUNT.exec(typed) ?? [];
  if (amount === undefined || unit === undefined) return null;
  const reading = readUnit(unit);
  if (!reading.ok || reading.unit.kind !== 'length') return null;
  return withoutNoise(pointed(amount) * reading.unit.factor);
}

/** A temperature typed in degrees Fahrenheit ("65 F", "65 °F") in degrees Celsius; null where none was typed. */
export function typedCelsius(typed: string): number | null {
  const [, amount, unit] = AMOUNT.exec(typed) ?? [];
  if (amount === undefined || !/^(°|deg\.?)?\s*f(ahrenheit)?$/i.test(unit ?? '')) return null;
  return withoutNoise(((pointed(amount) - 32) * 5) / 9);
}

const pointed = (amount: string) => Number(amount.replace(',', '.'));

/** 12 significant digits: 0.3 ft is 91.44 mm and not 91.43999999999998. */
const withoutNoise = (value: number) => Number(value.toPrecision(12));
