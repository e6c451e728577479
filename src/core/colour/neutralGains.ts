import type { RgbaRaster } from '../raster/rgbaRaster.ts';
import { LINEAR_FROM_BYTE } from './srgb.ts';

/** No gain leaves these bounds: a reference further off than a factor of two is not grey. */
export const LEAST_GAIN = 0.5;
export const LARGEST_GAIN = 2;

/** Channel values outside these are clipped or too dark to tell a colour. */
const DARKEST = 8;
const BRIGHTEST = 250;

type Rectangle = readonly [left: number, top: number, width: number, height: number];

/**
 * Factors for linear red, green and blue that make a neutral reference grey, and leave its luminance about as it is.
 *
 * Red and blue are brought to green, which carries most of the luminance. Clipped and very dark pixels are left out.
 *
 * @param neutral left, top, width, height of a rectangle inside the grey card, pixels of the photo
 * @returns gains within LEAST_GAIN..LARGEST_GAIN, or null when fewer than half of the pixels can be used
 */
export function neutralGains(
  photo: RgbaRaster,
  neutral: Rectangle,
): readonly [number, number, number] | null {
  const sums = neutralSums(photo, neutral);
  if (!sums) return null;
  const [red, green, blue] = sums.linear;
  const gain = (channel: number) =>
    Math.min(LARGEST_GAIN, Math.max(LEAST_GAIN, green / Math.max(1, channel)));
  return [gain(red), 1, gain(blue)];
}

/**
 * Sums of linear red, green and blue over the pixels of a neutral reference that can be used, in units of 1 / LINEAR_ONE.
 *
 * @returns null when those are fewer than half of its pixels
 */
export function neutralSums(
  { widthPx, heightPx, data }: RgbaRaster,
  neutral: Rectangle,
): { readonly linear: readonly [number, number, number]; readonly pixels: number } | null {
  const [x, y, width, height] = neutral;
  const left = Math.max(0, Math.round(x));
  const top = Math.max(0, Math.round(y));
  const right = Math.min(widthPx, Math.round(x + width));
  const bottom = Math.min(heightPx, Math.round(y + height));
  const sum: [number, number, number] = [0, 0, 0];
  let used = 0;
  for (let row = top; row < bottom; row += 1) {
    for (let column = left; column < right; column += 1) {
      const at = 4 * (row * widthPx + column);
      const [red, green, blue] = [data[at]!, data[at + 1]!, data[at + 2]!];
      if (Math.min(red, green, blue) < DARKEST || Math.max(red, green, blue) > BRIGHTEST) continue;
      sum[0] += LINEAR_FROM_BYTE[red]!;
      sum[1] += LINEAR_FROM_BYTE[green]!;
      sum[2] += LINEAR_FROM_BYTE[blue]!;
      used += 1;
    }
  }
  if (used === 0 || used < ((right - left) * (bottom - top)) / 2) return null;
  return { linear: sum, pixels: used };
}
