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
  /** Null where the mean colour is a grey. */
  readonly darkGreenColourIndex: number | null;
  /** Whether a grey card in the photo balanced it. Without one, figures of other dates or phones cannot be set beside it. */
  readonly neutral: boolean;
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
  const [reds, greens, blues] = [0, 1, 2].map((channel) => balancedBytes(neutralGains?.[channel] ?? 1)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  let red = 0;
  let green = 0;
  let blue = 0;
  let pixels = 0;
  for (let y = step >> 1; y < heightPx; y += step) {
    for (let x = step >> 1; x < widthPx; x += step) {
      const index = y * widthPx + x;
      if (labels[index] !== label) continue;
      red += reds[data[4 * index]!]!;
      green += greens[data[4 * index + 1]!]!;
      blue += blues[data[4 * index + 2]!]!;
      pixels += 1;
    }
  }
  if (pixels === 0) return null;
  const index = darkGreenColourIndex([red / pixels, green / pixels, blue / pixels]);
  return { classId: turf.id, pixels, darkGreenColourIndex: index, neutral: neutralGains !== null };
}

/** Encoded 0..1 of each byte after a gain in linear light, cut at white. */
function balancedBytes(gain: number): Float64Array {
  return Float64Array.from({ length: 256 }, (_, byte) =>
    gain === 1 ? byte / 255 : srgbFromLinear(Math.min(1, (gain * LINEAR_FROM_BYTE[byte]!) / LINEAR_ONE)),
  );
}
