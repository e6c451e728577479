import { RESPONSE_ONE } from '../colour/labResponseTable.ts';
import { LAB_UNIT } from './logLightness.ts';

/** From differences of the response table's entries to L*, a*, b* in units of 1 / LAB_UNIT, to be rounded down. */
export const LIGHTNESS_SCALE = (116 * LAB_UNIT) / RESPONSE_ONE;
/** Taken from the lightness; half a unit less than the foot, so that rounding down rounds. */
export const LIGHTNESS_FOOT = 16 * LAB_UNIT - 0.5;
export const A_SCALE = (500 * LAB_UNIT) / RESPONSE_ONE;
export const B_SCALE = (200 * LAB_UNIT) / RESPONSE_ONE;
