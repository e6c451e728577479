/**
 * Linear light of an sRGB value.
 *
 * @param encoded 0..1
 * @returns 0..1
 * @see IEC 61966-2-1
 */
export function linearFromSrgb(encoded: number): number {
  return encoded <= 0.04045 ? encoded / 12.92 : ((encoded + 0.055) / 1.055) ** 2.4;
}

/** sRGB value of linear light, both 0..1. @see IEC 61966-2-1 */
export function srgbFromLinear(linear: number): number {
  return linear <= 0.0031308 ? linear * 12.92 : 1.055 * linear ** (1 / 2.4) - 0.055;
}

/** Linear light 1 in the whole-number planes of the pixel path. */
export const LINEAR_ONE = 16384;

/**
 * Linear light of each 8-bit sRGB value, in units of 1 / LINEAR_ONE.
 *
 * No entry lies near a rounding boundary (a test holds that), so every engine builds the same table whatever
 * the last bit of its power function.
 */
export const LINEAR_FROM_BYTE: Uint16Array = Uint16Array.from({ length: 256 }, (_, byte) =>
  Math.round(linearFromSrgb(byte / 255) * LINEAR_ONE),
);
