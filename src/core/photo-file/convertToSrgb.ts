import { srgbFromLinear } from '../colour/srgb.ts';
import type { ColourProfile } from './colourProfile.ts';

/**
 * sRGB's red, green and blue in CIE XYZ under D50, row-major 3 x 3: the colorant tags of the ICC's sRGB profile, which
 * are multiples of 1 / 65536.
 *
 * @see IEC 61966-2-1; International Color Consortium, sRGB profile, tags rXYZ, gXYZ, bXYZ
 */
const SRGB_TO_XYZ_D50 = [
  0.436065674, 0.385147095, 0.143066406, 0.222488403, 0.716873169, 0.06060791, 0.013916016, 0.097076416,
  0.714096069,
];

/** Linear light is held in whole numbers 0..LIGHT_ONE, matrix entries in units of 1 / MATRIX_ONE. */
const LIGHT_ONE = 32767;
const MATRIX_ONE = 16384;

/**
 * Whole-number tables that take pixels of a profile to sRGB.
 *
 * Whole numbers, so that every engine gives the same bytes; colours outside sRGB are clipped channel by channel.
 */
export interface SrgbConversion {
  /** 3 x 256 linear values. */
  readonly linear: Int32Array;
  /** Linear profile colour to linear sRGB, row-major 3 x 3. */
  readonly matrix: Int32Array;
  /** sRGB's 8-bit code of each linear value 0..LIGHT_ONE. */
  readonly encode: Uint8ClampedArray;
}

/** The tables of a profile, or null where it is sRGB: no colour would change by more than one level. */
export function srgbConversion(profile: ColourProfile): SrgbConversion | null {
  const linear = new Int32Array(3 * 256);
  profile.linear.forEach((curve, channel) => {
    curve.forEach((light, value) => {
      linear[256 * channel + value] = Math.round(light * LIGHT_ONE);
    });
  });
  const matrix = Int32Array.from(product(inverse(SRGB_TO_XYZ_D50), profile.toXyzD50), (entry) =>
    Math.round(entry * MATRIX_ONE),
  );
  const encode = Uint8ClampedArray.from(
    { length: LIGHT_ONE + 1 },
    (_, light) => 255 * srgbFromLinear(light / LIGHT_ONE),
  );
  const conversion = { linear, matrix, encode };
  return changesAnything(conversion) ? conversion : null;
}

/** Tries 17 values a channel. */
function changesAnything(conversion: SrgbConversion): boolean {
  const steps = Array.from({ length: 17 }, (_, i) => Math.round((i * 255) / 16));
  const colours = steps.flatMap((r) => steps.flatMap((g) => steps.flatMap((b) => [r, g, b, 255])));
  const converted = Uint8ClampedArray.from(colours);
  convertToSrgb(converted, conversion);
  return converted.some((value, i) => Math.abs(value - colours[i]!) > 1);
}

/** Converts the colours of RGBA pixels in place; alpha stays. */
export function convertToSrgb(rgba: Uint8ClampedArray, conversion: SrgbConversion): void {
  const { linear, matrix, encode } = conversion;
  const [m0, m1, m2, m3, m4, m5, m6, m7, m8] = matrix as unknown as number[] as [
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  const half = MATRIX_ONE >> 1;
  for (let i = 0; i < rgba.length; i += 4) {
    const r = linear[rgba[i]!]!;
    const g = linear[256 + rgba[i + 1]!]!;
    const b = linear[512 + rgba[i + 2]!]!;
    const red = (m0 * r + m1 * g + m2 * b + half) >> 14;
    const green = (m3 * r + m4 * g + m5 * b + half) >> 14;
    const blue = (m6 * r + m7 * g + m8 * b + half) >> 14;
    rgba[i] = encode[Math.min(Math.max(red, 0), LIGHT_ONE)]!;
    rgba[i + 1] = encode[Math.min(Math.max(green, 0), LIGHT_ONE)]!;
    rgba[i + 2] = encode[Math.min(Math.max(blue, 0), LIGHT_ONE)]!;
  }
}

/** Product of two row-major 3 x 3 matrices. */
function product(a: readonly number[], b: readonly number[]): number[] {
  return Array.from({ length: 9 }, (_, i) => {
    const [row, column] = [Math.floor(i / 3), i % 3];
    return [0, 1, 2].reduce((sum, k) => sum + a[3 * row + k]! * b[3 * k + column]!, 0);
  });
}

/** Inverse of a row-major 3 x 3 matrix by its cofactors. */
function inverse(m: readonly number[]): number[] {
  const cofactor = (row: number, column: number): number => {
    const [r1, r2, c1, c2] = [(row + 1) % 3, (row + 2) % 3, (column + 1) % 3, (column + 2) % 3];
    return m[3 * r1 + c1]! * m[3 * r2 + c2]! - m[3 * r1 + c2]! * m[3 * r2 + c1]!;
  };
  const determinant = [0, 1, 2].reduce((sum, column) => sum + m[column]! * cofactor(0, column), 0);
  return Array.from({ length: 9 }, (_, i) => cofactor(i % 3, Math.floor(i / 3)) / determinant);
}
