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

/** Real profiles of wide gamut reach 3. */
const MOST_ROW_SUM = 3.5;
/** Linear light is held in whole numbers: 1 is LIGHT_ONE, and sums of shares have SHARE_BITS more behind the point. */
const LIGHT_ONE = 32767;
const SHARE_BITS = 13;

/**
 * Whole-number tables that take pixels of a profile to sRGB.
 *
 * Whole numbers, so that every engine gives the same bytes; colours outside sRGB are clipped channel by channel.
 */
export interface SrgbConversion {
  /**
   * What each stored value adds to the linear light of an sRGB channel: nine tables of 256, for red from red, red from
   * green, red from blue, green from red and so on. The first of each three holds the offset into `encode` as well.
   */
  readonly shares: readonly Int32Array[];
  /** 8-bit sRGB code at (sum of three shares) >> SHARE_BITS, light below 0 and above 1 included. */
  readonly encode: Uint8Array;
}

/**
 * The tables of a profile, or null where there is nothing to convert: the profile is sRGB (no colour would change by
 * more than one level), or its primaries are nonsense, as of no light that exists.
 */
export function srgbConversion(profile: ColourProfile): SrgbConversion | null {
  const matrix = product(inverse(SRGB_TO_XYZ_D50), profile.toXyzD50);
  // nothing real comes near it, and the sums stay within 32 bits
  const rowSums = [0, 3, 6].map((row) => [0, 1, 2].reduce((sum, k) => sum + Math.abs(matrix[row + k]!), 0));
  if (!rowSums.every((sum) => sum < MOST_ROW_SUM)) return null;

  const unit = LIGHT_ONE * (1 << SHARE_BITS);
  const lowestLight = Math.floor(-MOST_ROW_SUM * LIGHT_ONE);
  const offset = -lowestLight * (1 << SHARE_BITS);
  const half = 1 << (SHARE_BITS - 1);
  const shares = matrix.map((entry, i) => {
    const start = i % 3 === 0 ? offset + half : 0;
    return Int32Array.from(profile.linear[i % 3]!, (light) => start + Math.round(entry * light * unit));
  });
  const encode = Uint8Array.from({ length: 1 + 2 * -lowestLight }, (_, i) => {
    const light = Math.min(1, Math.max(0, (i + lowestLight) / LIGHT_ONE));
    return Math.round(255 * srgbFromLinear(light));
  });
  const conversion = { shares, encode };
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

/**
 * Converts the colours of RGBA pixels in place; alpha stays.
 *
 * Reads pixels as 32-bit numbers with red in the lowest byte, as on every machine that browsers and Node run on.
 */
export function convertToSrgb(
  rgba: Uint8ClampedArray<ArrayBuffer>,
  { shares, encode }: SrgbConversion,
): void {
  const pixels = new Uint32Array(rgba.buffer, rgba.byteOffset, rgba.length >> 2);
  const [rr, rg, rb, gr, gg, gb, br, bg, bb] = shares as [
    Int32Array,
    Int32Array,
    Int32Array,
    Int32Array,
    Int32Array,
    Int32Array,
    Int32Array,
    Int32Array,
    Int32Array,
  ];
  for (let i = 0; i < pixels.length; i += 1) {
    const pixel = pixels[i]!;
    const r = pixel & 255;
    const g = (pixel >>> 8) & 255;
    const b = (pixel >>> 16) & 255;
    const red = encode[(rr[r]! + rg[g]! + rb[b]!) >> SHARE_BITS]!;
    const green = encode[(gr[r]! + gg[g]! + gb[b]!) >> SHARE_BITS]!;
    const blue = encode[(br[r]! + bg[g]! + bb[b]!) >> SHARE_BITS]!;
    pixels[i] = (pixel & 0xff000000) | red | (green << 8) | (blue << 16);
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
