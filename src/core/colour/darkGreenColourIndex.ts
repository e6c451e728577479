import { hsvFromSrgb } from './hsv.ts';

/**
 * Dark green colour index: 0 for yellow and pale, 1 for the darkest green.
 *
 * ((hue - 60) / 60 + (1 - saturation) + (1 - brightness)) / 3, of the mean colour of an area in encoded sRGB. The formula is
 * made for turf, whose hue lies within 60 to 120 degrees; the index is not cut at those ends.
 *
 * @param srgb mean red, green and blue, each 0..1
 * @returns null for a grey, which has no hue
 * @see Karcher & Richardson 2003, Crop Sci. 43:943-951. Expected values: tests/reference-values/dgci.json
 */
export function darkGreenColourIndex(srgb: readonly [number, number, number]): number | null {
  const { hueDegrees, saturation, value } = hsvFromSrgb(srgb);
  return hueDegrees === null ? null : indexOfHsb(hueDegrees, saturation, value);
}

/** The formula itself, of hue in degrees, saturation and brightness 0..1. */
export function indexOfHsb(hueDegrees: number, saturation: number, brightness: number): number {
  return ((hueDegrees - 60) / 60 + (1 - saturation) + (1 - brightness)) / 3;
}
