import type { TeachingStroke } from '../../src/core/classifier/trainingSamples.ts';
import { photoPoint } from '../../src/core/geometry/points.ts';
import type { RgbaRaster } from '../../src/core/raster/rgbaRaster.ts';
import { seededRandom } from './seededRandom.ts';

/** sRGB of dark grass, light grass and ground, before noise. */
const COLOURS = [
  [52, 92, 44],
  [112, 148, 62],
  [118, 96, 74],
] as const;

export interface PaintedTurf {
  readonly raster: RgbaRaster;
  /** 1, 2, 3 for dark grass, light grass, ground. */
  readonly labels: Uint8Array;
  /** 0..1, in that order. */
  readonly shares: readonly number[];
}

/**
 * A made-up photo of upright bands of three kinds with noise, and what it shows.
 *
 * @param shares of the width, adding up to 1
 * @param brightness factor on all channels, for other light
 */
export function paintedTurf(
  widthPx: number,
  heightPx: number,
  shares: readonly [number, number, number],
  options: { seed?: number; brightness?: number } = {},
): PaintedTurf {
  const { seed = 1, brightness = 1 } = options;
  const random = seededRandom(seed);
  const data = new Uint8ClampedArray(widthPx * heightPx * 4);
  const labels = new Uint8Array(widthPx * heightPx);
  const borders = [shares[0], shares[0] + shares[1]].map((share) => Math.round(share * widthPx));
  for (let y = 0; y < heightPx; y += 1) {
    for (let x = 0; x < widthPx; x += 1) {
      const kind = x < borders[0]! ? 0 : x < borders[1]! ? 1 : 2;
      const pixel = y * widthPx + x;
      labels[pixel] = kind + 1;
      const noise = (random() + random() + random() - 1.5) * 30;
      COLOURS[kind]!.forEach((value, channel) => {
        data[4 * pixel + channel] = brightness * (value + noise + (random() - 0.5) * 12);
      });
      data[4 * pixel + 3] = 255;
    }
  }
  return {
    raster: { widthPx, heightPx, data },
    labels,
    shares: [borders[0]! / widthPx, (borders[1]! - borders[0]!) / widthPx, 1 - borders[1]! / widthPx],
  };
}

/** Short strokes of radius 2 on each of the kinds, `each` a kind, well within its band. */
export function strokesOn(
  { labels, raster }: PaintedTurf,
  classIds: readonly string[],
  each: number,
  seed = 7,
): TeachingStroke[] {
  const random = seededRandom(seed);
  const { widthPx, heightPx } = raster;
  return classIds.flatMap((classId, c) => {
    const strokes: TeachingStroke[] = [];
    while (strokes.length < each) {
      const x = 4 + Math.floor(random() * (widthPx - 8));
      const y = 4 + Math.floor(random() * (heightPx - 12));
      const isWithin = [-4, 4].every((dx) => labels[y * widthPx + x + dx] === c + 1);
      if (isWithin) strokes.push({ classId, radiusPx: 2, points: [photoPoint(x, y), photoPoint(x, y + 5)] });
    }
    return strokes;
  });
}
