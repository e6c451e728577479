import type { RgbaRaster } from '../raster/rgbaRaster.ts';
import { LARGEST_GAIN, LEAST_GAIN, neutralGains, neutralSums } from './neutralGains.ts';
import { LINEAR_ONE, srgbFromLinear } from './srgb.ts';

type Rgb = readonly [red: number, green: number, blue: number];

/** What balancing by a neutral reference does to the reference itself. */
export interface CardBalance {
  /** Mean colour in linear light, written as sRGB 0..255, as the photo has it and as it is measured. */
  readonly before: Rgb;
  readonly after: Rgb;
  /** Factors of linear red, green and blue. */
  readonly gains: Rgb;
  /** A channel would have needed more than it may be given: this is hardly grey. */
  readonly capped: boolean;
}

/**
 * The colour of a neutral reference before and after it was balanced by.
 *
 * @param neutral left, top, width, height, pixels of the photo
 * @returns null where it cannot be balanced by: overexposed, too dark or outside the photo
 */
export function cardBalance(
  photo: RgbaRaster,
  neutral: readonly [number, number, number, number],
): CardBalance | null {
  const gains = neutralGains(photo, neutral);
  const sums = neutralSums(photo, neutral);
  if (!gains || !sums) return null;
  const mean = sums.linear.map((sum) => sum / sums.pixels);
  const encoded = (linear: readonly number[]) =>
    linear.map((value) =>
      Math.min(255, Math.round(255 * srgbFromLinear(value / LINEAR_ONE))),
    ) as never as Rgb;
  return {
    before: encoded(mean),
    after: encoded(mean.map((value, channel) => value * gains[channel]!)),
    gains,
    capped: gains.some((gain) => gain === LEAST_GAIN || gain === LARGEST_GAIN),
  };
}
