import { LINEAR_FROM_BYTE, LINEAR_ONE } from '../colour/srgb.ts';
import type { MeasuredArea } from '../geometry/measuredArea.ts';
import type { RgbaRaster } from '../raster/rgbaRaster.ts';

/** Red, green and blue of middling turf in linear light, 0..1: where photos are brought to. Common practice, no source. */
const TURF = [0.055, 0.085, 0.035] as const;

/** Share of each channel in luminance, in 256ths that add up to 256. @see IEC 61966-2-1 */
const LUMINANCE_256 = [54, 183, 19] as const;

/** A photo is never brightened or dimmed more than this. */
const LARGEST_LEVELLING = 8;

/** About so many pixels tell the medians. */
const ENOUGH_PIXELS = 250_000;

/**
 * Factors for linear red, green and blue that bring a photo's measured area to the brightness of middling turf, and
 * its colour half way there.
 *
 * Half way, since a photo's median colour tells of its light and of its plants alike: bringing every channel the whole
 * way would hide how much of the turf is light grass.
 *
 * @param neutralGains factors applied before, or null; they are part of the result
 * @returns 1, 1, 1 where nothing is measured
 */
export function levelGains(
  raster: RgbaRaster,
  area: MeasuredArea,
  neutralGains: readonly [number, number, number] | null = null,
): [number, number, number] {
  const { bounds, inside, widthPx } = area;
  const { data } = raster;
  const balance = neutralGains ?? [1, 1, 1];
  const step = Math.max(1, Math.floor(Math.sqrt(area.measuredPixels / ENOUGH_PIXELS)));
  const channels = [new Int32Array(256), new Int32Array(256), new Int32Array(256)] as const;
  const luminance = new Int32Array(2 * LINEAR_ONE * 4);
  const [r256, g256, b256] = LUMINANCE_256.map((part, i) => part * balance[i]!) as [number, number, number];
  let pixels = 0;
  for (let y = bounds.top; y < bounds.bottom; y += step) {
    for (let x = bounds.left; x < bounds.right; x += step) {
      if (inside[y * widthPx + x] === 0) continue;
      const at = 4 * (y * widthPx + x);
      const [red, green, blue] = [data[at]!, data[at + 1]!, data[at + 2]!];
      channels[0][red]! += 1;
      channels[1][green]! += 1;
      channels[2][blue]! += 1;
      const light =
        r256 * LINEAR_FROM_BYTE[red]! + g256 * LINEAR_FROM_BYTE[green]! + b256 * LINEAR_FROM_BYTE[blue]!;
      luminance[Math.min(luminance.length - 1, Math.floor(light / 64))]! += 1;
      pixels += 1;
    }
  }
  if (pixels === 0) return [1, 1, 1];
  const turfLight = LUMINANCE_256.reduce((sum, part, i) => sum + (part / 256) * TURF[i]!, 0);
  const lightGain = turfLight / ((medianOf(luminance, pixels) + 0.5) / (4 * LINEAR_ONE));
  return balance.map((gain, i) => {
    const middle = (Math.max(1, LINEAR_FROM_BYTE[medianOf(channels[i]!, pixels)]!) / LINEAR_ONE) * gain;
    const levelling = Math.sqrt(lightGain * (TURF[i]! / middle));
    return gain * Math.min(LARGEST_LEVELLING, Math.max(1 / LARGEST_LEVELLING, levelling));
  }) as [number, number, number];
}

/** The lowest bin at which half of the count is reached. */
function medianOf(counts: Int32Array, total: number): number {
  let below = 0;
  for (let bin = 0; bin < counts.length; bin += 1) {
    below += counts[bin]!;
    if (2 * below >= total) return bin;
  }
  return counts.length - 1;
}
