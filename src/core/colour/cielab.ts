export type Triple = readonly [number, number, number];

/** Linear sRGB to XYZ under D65, rows X, Y, Z: the primaries of IEC 61966-2-1 worked out to 7 decimals. */
export const XYZ_FROM_LINEAR: readonly [Triple, Triple, Triple] = [
  [0.4124564, 0.3575761, 0.1804375],
  [0.2126729, 0.7151522, 0.072175],
  [0.0193339, 0.119192, 0.9503041],
];

/** The D65 white for the 2-degree observer, Y = 1. @see CIE 15 */
export const WHITE_D65: Triple = [0.95047, 1, 1.08883];

/** XYZ (white has Y = 1) of linear sRGB 0..1. */
export function xyzFromLinear([red, green, blue]: Triple): Triple {
  const row = ([r, g, b]: Triple): number => r * red + g * green + b * blue;
  return [row(XYZ_FROM_LINEAR[0]), row(XYZ_FROM_LINEAR[1]), row(XYZ_FROM_LINEAR[2])];
}

/** The lightness response of CIELAB: a cube root with a linear foot, of a ratio to white. @see CIE 15 */
export function labResponse(ratio: number): number {
  return ratio > 216 / 24389 ? Math.cbrt(ratio) : ((24389 / 27) * ratio + 16) / 116;
}

/** CIELAB (L* 0..100, a*, b*) of XYZ, relative to D65. */
export function labFromXyz([x, y, z]: Triple): Triple {
  const fx = labResponse(x / WHITE_D65[0]);
  const fy = labResponse(y / WHITE_D65[1]);
  const fz = labResponse(z / WHITE_D65[2]);
  return [116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)];
}
