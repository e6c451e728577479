import type { PixelBox } from '../geometry/pixelBox.ts';
import type { RgbaRaster } from '../raster/rgbaRaster.ts';
import { TILE_PX } from './frameTiles.ts';

/** How fine the detail is that a photo shows, and how noisy it is. */
export interface FineDetail {
  /**
   * Distance, in pixels, at which brightness differs half as much (in the second difference) as it does at the distance
   * where it differs most: the width of the finest things that are seen clearly. Blur widens it.
   */
  readonly detailPx: number;
  /** Standard deviation of the noise from pixel to pixel, levels of 0..255; an upper bound, for turf has texture. */
  readonly noiseLevels: number;
}

const DISTANCES_PX = [1, 2, 4, 8, 16];
/** Noise is that of the smoothest blocks: this share of all blocks is smoother. */
const SMOOTH_BLOCKS = 0.05;
const BLOCK_PX = 8;
/** Blocks lighter or darker than this say nothing of noise: it is cut off there. */
const LIGHTEST = 235;
const DARKEST = 12;

/**
 * Detail and noise of the green channel in a number of tiles.
 *
 * Second differences at growing distances are a coarse spectrum: white noise gives the same at every distance and is taken
 * off, leaves give most at their own width.
 *
 * @returns null where there is no tile, or where nothing is left above the noise
 * @see Immerkaer 1996, Comput. Vis. Image Underst. 64:300, for the mask that sees noise and no edges
 */
export function fineDetail({ widthPx, data }: RgbaRaster, tiles: readonly PixelBox[]): FineDetail | null {
  if (tiles.length === 0) return null;
  const sums = new Float64Array(DISTANCES_PX.length);
  const blockNoise: number[] = [];
  const row = 4 * widthPx;
  for (const { left, top, right, bottom } of tiles) {
    for (let k = 0; k < DISTANCES_PX.length; k += 1) {
      const dx = 4 * DISTANCES_PX[k]!;
      const dy = row * DISTANCES_PX[k]!;
      for (let y = top; y < bottom; y += 1) {
        // whole numbers: a row's sum stays far below 2^31
        let sum = 0;
        for (let i = y * row + 4 * left + 1, end = i + 4 * TILE_PX; i < end; i += 4) {
          const twice = 2 * data[i]!;
          const across = twice - data[i - dx]! - data[i + dx]!;
          const down = twice - data[i - dy]! - data[i + dy]!;
          sum += across * across + down * down;
        }
        sums[k]! += sum;
      }
    }
    for (let y = top; y + BLOCK_PX <= bottom; y += BLOCK_PX) {
      for (let x = left; x + BLOCK_PX <= right; x += BLOCK_PX) {
        const noise = noiseOfBlock(data, row, x, y);
        if (noise !== null) blockNoise.push(noise);
      }
    }
  }
  blockNoise.sort((a, b) => a - b);
  const noiseLevels = blockNoise[Math.floor(SMOOTH_BLOCKS * blockNoise.length)] ?? 0;
  const count = tiles.length * TILE_PX * TILE_PX * 2;
  // a second difference of white noise has 1 + 1 + 4 times its variance
  const energies = Array.from(sums, (sum) => Math.max(0, sum / count - 6 * noiseLevels * noiseLevels));
  const detailPx = halfDistance(energies.map(Math.sqrt));
  return detailPx === null ? null : { detailPx, noiseLevels };
}

/** Mean size of the response to [1 -2 1; -2 4 -2; 1 -2 1], as the deviation of the noise that would give it. */
function noiseOfBlock(data: Uint8ClampedArray, row: number, left: number, top: number): number | null {
  let [sum, level] = [0, 0];
  for (let y = top; y < top + BLOCK_PX; y += 1) {
    for (let i = y * row + 4 * left + 1, end = i + 4 * BLOCK_PX; i < end; i += 4) {
      const corners = data[i - row - 4]! + data[i - row + 4]! + data[i + row - 4]! + data[i + row + 4]!;
      const sides = data[i - row]! + data[i + row]! + data[i - 4]! + data[i + 4]!;
      sum += Math.abs(corners - 2 * sides + 4 * data[i]!);
      level += data[i]!;
    }
  }
  const count = BLOCK_PX * BLOCK_PX;
  if (level > LIGHTEST * count || level < DARKEST * count) return null;
  return (Math.sqrt(Math.PI / 2) * sum) / (6 * count);
}

/** Where the response first reaches half of its largest value, between the distances by straight lines in log scale. */
function halfDistance(responses: readonly number[]): number | null {
  const half = Math.max(...responses) / 2;
  if (half <= 0) return null;
  const k = responses.findIndex((response) => response >= half);
  // below the least distance the response of a blurred edge falls with the square of the distance
  if (k === 0) return DISTANCES_PX[0]! * Math.sqrt(half / responses[0]!);
  const [low, high] = [responses[k - 1]!, responses[k]!];
  return DISTANCES_PX[k - 1]! * (DISTANCES_PX[k]! / DISTANCES_PX[k - 1]!) ** ((half - low) / (high - low));
}
