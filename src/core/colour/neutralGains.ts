import type { RgbaRaster } from '../raster/rgbaRaster.ts';
import { LINEAR_FROM_BYTE } from './srgb.ts';

/** Bytes outside this range say little of colour: too dark for the noise, or clipped. */
const USABLE_BYTES = { least: 25, most: 250 };

/** Cameras balance white to within about this factor; more means that the rectangle shows no neutral thing. */
const LARGEST_GAIN = 2.5;

/**
 * Factors for linear red, green and blue that make a neutral reference grey. Green keeps its value.
 *
 * Median over the rectangle's opaque, well exposed pixels, so that a leaf lying across the card does no harm.
 *
 * @param rectangle left, top, width, height in photo pixels; what reaches out of the photo is left out
 * @returns null when under half of the rectangle is usable, or when it is too coloured to be a neutral reference
 */
export function neutralGains(
  raster: RgbaRaster,
  rectangle: readonly [number, number, number, number],
): [number, number, number] | null {
  const [x, y, width, height] = rectangle;
  const left = Math.max(0, Math.floor(x));
  const top = Math.max(0, Math.floor(y));
  const right = Math.min(raster.widthPx, Math.ceil(x + width));
  const bottom = Math.min(raster.heightPx, Math.ceil(y + height));
  const histograms = [new Uint32Array(256), new Uint32Array(256), new Uint32Array(256)] as const;
  let usable = 0;
  for (let row = top; row < bottom; row += 1) {
    for (let column = left; column < right; column += 1) {
      const byte = 4 * (row * raster.widthPx + column);
      const red = raster.data[byte]!;
      const green = raster.data[byte + 1]!;
      const blue = raster.data[byte + 2]!;
      const least = Math.min(red, green, blue);
      const most = Math.max(red, green, blue);
      if (raster.data[byte + 3] !== 255 || least < USABLE_BYTES.least || most > USABLE_BYTES.most) continue;
      histograms[0][red]! += 1;
      histograms[1][green]! += 1;
      histograms[2][blue]! += 1;
      usable += 1;
    }
  }
  if (usable === 0 || usable < (Math.max(0, right - left) * Math.max(0, bottom - top)) / 2) return null;
  const [red, green, blue] = histograms.map((counts) => LINEAR_FROM_BYTE[medianLevel(counts, usable)]!);
  const gains: [number, number, number] = [green! / red!, 1, green! / blue!];
  const believable = gains.every((gain) => gain <= LARGEST_GAIN && gain >= 1 / LARGEST_GAIN);
  return believable ? gains : null;
}

/** The level at which half of the counts are reached. */
function medianLevel(counts: Uint32Array, total: number): number {
  let reached = 0;
  for (let level = 0; level < counts.length; level += 1) {
    reached += counts[level]!;
    if (2 * reached >= total) return level;
  }
  throw new RangeError(`the counts add up to ${reached}, less than half of ${total}`);
}
