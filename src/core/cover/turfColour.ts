import { darkGreenColourIndex } from '../colour/darkGreenColourIndex.ts';
import { LINEAR_FROM_BYTE, LINEAR_ONE, srgbFromLinear } from '../colour/srgb.ts';
import type { LabelMask } from '../raster/labelMask.ts';
import type { RgbaRaster } from '../raster/rgbaRaster.ts';
import { type CoverClass, turfClass } from '../trial/coverClass.ts';

/** Colour of the turf in one photo. */
export interface TurfColour {
  readonly classId: string;
  /** Pixels the mean is of. */
  readonly pixels: number;
  /** Of the colours as photographed; null where their mean is a grey. */
  readonly darkGreenColourIndex: number | null;
  /**
   * The same balanced by the grey card in the photo; null without one. Only these can be set beside figures of other dates or
   * phones, and never beside a figure that was not balanced.
   */
  readonly balancedIndex: number | null;
}

/** A mean of so many pixels is known far better than the light is; looking at more would only take time. */
const MOST_PIXELS = 100_000;

/**
 * Mean colour of the turf class: the mean of encoded red, green and blue over its pixels, and the index of that mean.
 *
 * Large photos are looked at on a square lattice of pixels (every second, third, ...).
 *
 * @param classes of the mask, in order
 * @param neutralGains factors for linear red, green and blue; null without a neutral reference
 * @returns null where no class is the turf itself, or it has no pixel on the lattice
 */
export function turfColour(
  { data, widthPx, heightPx }: RgbaRaster,
  { labels }: LabelMask,
  classes: readonly CoverClass[],
  neutralGains: readonly [number, number, number] | null,
): TurfColour | null {
  const turf = turfClass(classes);
  if (!turf) return null;
  const label = 1 + classes.indexOf(turf);
  const step = Math.max(1, Math.ceil(Math.sqrt((widthPx * heightPx) / MOST_PIXELS)));
  const sums = [0, 0, 0];
  const balanced = [0, 0, 0];
  const tables = neutralGains?.map(balancedBytes) ?? null;
  let pixels = 0;
  for (let y = step >> 1; y < heightPx; y += step) {
    for (let x = step >> 1; x < widthPx; x += step) {
      const index = y * widthPx + x;
      if (labels[index] !== label) continue;
      for (let channel = 0; channel < 3; channel += 1) {
        const byte = data[4 * index + channel]!;
        sums[channel]! += byte / 255;
        if (tables) balanced[channel]! += tables[channel]![byte]!;
      }
      pixels += 1;
    }
  }
  if (pixels === 0) return null;
  const indexOf = ([red, green, blue]: readonly number[]): number | null =>
    darkGreenColourIndex([red! / pixels, green! / pixels, blue! / pixels]);
  return {
    classId: turf.id,
    pixels,
    darkGreenColourIndex: indexOf(sums),
    balancedIndex: tables && indexOf(balanced),
  };
}

/** Encoded 0..1 of each byte after a gain in linear light, cut at white. */
function balancedBytes(gain: number): Float64Array {
  return Float64Array.from({ length: 256 }, (_, byte) =>
    gain === 1 ? byte / 255 : srgbFromLinear(Math.min(1, (gain * LINEAR_FROM_BYTE[byte]!) / LINEAR_ONE)),
  );
}
