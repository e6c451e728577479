import { labResponse } from './cielab.ts';
import { LINEAR_ONE } from './srgb.ts';

/** The response of white in the table's units. */
export const RESPONSE_ONE = 1 << 17;

/** Ratios to white up to this are told apart; a neutral reference can lift bright pixels above 1. */
export const LARGEST_RATIO = 2;

/**
 * The CIELAB response of ratios 0..LARGEST_RATIO in steps of 1 / LINEAR_ONE, in units of 1 / RESPONSE_ONE.
 *
 * No entry lies near a rounding boundary (a test holds that), so every engine builds the same table.
 */
export const LAB_RESPONSE: Int32Array = Int32Array.from(
  { length: LARGEST_RATIO * LINEAR_ONE + 1 },
  (_, step) => Math.round(labResponse(step / LINEAR_ONE) * RESPONSE_ONE),
);
