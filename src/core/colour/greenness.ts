import type { Triple } from './cielab.ts';

/** Red, green and blue as shares of their sum; null for black, which has no colour. */
export function chromaticCoordinates([red, green, blue]: Triple): Triple | null {
  const sum = red + green + blue;
  return sum === 0 ? null : [red / sum, green / sum, blue / sum];
}

/** Excess green of chromatic coordinates. @see Woebbecke et al. 1995, Trans. ASAE 38:259 */
export const excessGreen = ([r, g, b]: Triple): number => 2 * g - r - b;

/** Excess red of chromatic coordinates. @see Meyer and Neto 2008, Comput. Electron. Agric. 63:282 */
export const excessRed = ([r, g]: Triple): number => 1.4 * r - g;

/**
 * Colour index of vegetation extraction; lower is greener. The one index here that takes 8-bit values 0..255.
 *
 * @see Kataoka et al. 2003, IEEE/ASME Int. Conf. Advanced Intelligent Mechatronics, 1079
 */
export const colourIndexOfVegetation = ([red, green, blue]: Triple): number =>
  0.441 * red - 0.811 * green + 0.385 * blue + 18.78745;

/**
 * Dark green colour index: 0 for yellow and bright, 1 for blue-green, pale and dark.
 *
 * Meant for green turf, hue 60..120 degrees; other hues are computed by the same formula and fall outside 0..1.
 *
 * @param hueDegrees from HSV
 * @param saturation 0..1
 * @param value brightness 0..1
 * @see Karcher and Richardson 2003, Crop Sci. 43:943
 */
export function darkGreenColourIndex(hueDegrees: number, saturation: number, value: number): number {
  return ((hueDegrees - 60) / 60 + (1 - saturation) + (1 - value)) / 3;
}
