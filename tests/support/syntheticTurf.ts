import type { RgbaRaster } from '../../src/core/raster/rgbaRaster.ts';
import { seededRandom } from './seededRandom.ts';

export type Rgb = readonly [number, number, number];

/** Colours of the three parts, about those of turf under an overcast sky. */
export const TURF_COLOURS = {
  dark: [79, 102, 58],
  light: [124, 141, 70],
  ground: [128, 116, 98],
} as const satisfies Record<string, Rgb>;

/**
 * A made-up picture: one colour a part, and a lightness that varies from streak to streak like that of leaves.
 *
 * @param partAt the part at a pixel
 * @param texture relative variation of lightness, 0 for flat colours
 */
export function syntheticTurf(
  widthPx: number,
  heightPx: number,
  partAt: (x: number, y: number) => Rgb,
  { texture = 0.35, seed = 1 }: { readonly texture?: number; readonly seed?: number } = {},
): RgbaRaster {
  const random = seededRandom(seed);
  const data = new Uint8ClampedArray(4 * widthPx * heightPx);
  for (let y = 0; y < heightPx; y += 1) {
    let streak = 1;
    for (let x = 0; x < widthPx; x += 1) {
      if (x % 3 === 0) streak = 1 + texture * (2 * random() - 1);
      const colour = partAt(x, y);
      const at = 4 * (y * widthPx + x);
      for (let channel = 0; channel < 3; channel += 1)
        data[at + channel] = Math.round(colour[channel]! * streak);
      data[at + 3] = 255;
    }
  }
  return { widthPx, heightPx, data };
}
