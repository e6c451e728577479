import { portableLog } from './portableMath.ts';

/** One unit of L*, a* or b* in the whole-number planes. */
export const LAB_UNIT = 128;

/** One unit of log lightness and of relative chroma in the whole-number planes. */
export const RELATIVE_UNIT = 4096;

/** L* + 16 is proportional to the cube root of luminance above the foot of CIELAB; the foot itself, in planes' units. */
const FOOT = 16 * LAB_UNIT;

/** L* of the brightest thing a plane can hold, with room to spare. */
const LARGEST_LIGHTNESS = 140 * LAB_UNIT;

/**
 * ln(L* + 16) in units of 1 / RELATIVE_UNIT, by L* in units of 1 / LAB_UNIT. A change of exposure adds the same to
 * every pixel.
 */
export const LOG_LIGHTNESS = Int16Array.from({ length: LARGEST_LIGHTNESS + 1 }, (_, lightness) =>
  Math.round(portableLog((lightness + FOOT) / LAB_UNIT) * RELATIVE_UNIT),
);

/**
 * a* or b* as a share of L* + 16, in units of 1 / RELATIVE_UNIT. A change of exposure leaves it as it is, since all
 * three go with the cube root of light.
 *
 * @param chroma a* or b*, in units of 1 / LAB_UNIT
 * @param lightness L* in units of 1 / LAB_UNIT
 */
export const relativeChroma = (chroma: number, lightness: number): number =>
  Math.floor((chroma * RELATIVE_UNIT) / (lightness + FOOT) + 0.5);
