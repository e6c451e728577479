import type { Quadrilateral } from '../geometry/points.ts';
import type { RgbaRaster } from '../raster/rgbaRaster.ts';
import { within } from './frameTiles.ts';

/** How light and dark the turf in a photo is. */
export interface Exposure {
  /** Share of pixels of which the largest channel is 254 or 255: lights without drawing. */
  readonly clippedLightsFraction: number;
  /** Share of pixels with all channels at 8 or less: shadows without drawing. */
  readonly clippedShadowsFraction: number;
  /** Median of the green channel, 0..255. */
  readonly medianGreen: number;
}

const SAMPLES_ACROSS = 400;
const LIGHT = 254;
const DARK = 8;

/** Looks at 160 000 pixels spread evenly over the frame, or over the photo without one. */
export function exposureOf(
  { widthPx, heightPx, data }: RgbaRaster,
  frame: Quadrilateral<'photo'> | null,
): Exposure {
  const corners = frame ?? [
    [0, 0] as const,
    [widthPx, 0] as const,
    [widthPx, heightPx] as const,
    [0, heightPx] as const,
  ];
  const greens = new Uint32Array(256);
  let [lights, shadows, count] = [0, 0, 0];
  for (let row = 0; row < SAMPLES_ACROSS; row += 1) {
    const v = (row + 0.5) / SAMPLES_ACROSS;
    const [fromX, fromY] = within(corners, 0, v);
    const [toX, toY] = within(corners, 1, v);
    for (let column = 0; column < SAMPLES_ACROSS; column += 1) {
      const u = (column + 0.5) / SAMPLES_ACROSS;
      const x = Math.floor(fromX + u * (toX - fromX));
      const y = Math.floor(fromY + u * (toY - fromY));
      if (x < 0 || y < 0 || x >= widthPx || y >= heightPx) continue;
      const at = 4 * (y * widthPx + x);
      const largest = Math.max(data[at]!, data[at + 1]!, data[at + 2]!);
      if (largest >= LIGHT) lights += 1;
      if (largest <= DARK) shadows += 1;
      greens[data[at + 1]!]! += 1;
      count += 1;
    }
  }
  let median = 0;
  for (let seen = greens[0]!; seen < count / 2; seen += greens[median]!) median += 1;
  return {
    clippedLightsFraction: count ? lights / count : 0,
    clippedShadowsFraction: count ? shadows / count : 0,
    medianGreen: median,
  };
}
