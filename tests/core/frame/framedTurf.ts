import { photoPoint, type Quadrilateral } from '../../../src/core/geometry/points.ts';
import type { RgbaRaster } from '../../../src/core/raster/rgbaRaster.ts';
import { type Rgb, syntheticTurf, TURF_COLOURS } from '../../support/syntheticTurf.ts';

export const corners = (...points: readonly (readonly [number, number])[]): Quadrilateral<'photo'> =>
  points.map(([x, y]) => photoPoint(x, y)) as unknown as Quadrilateral<'photo'>;

/** Distance outward from the nearest side of a convex quadrilateral whose corners run clockwise; negative inside. */
export function distanceOutward(frame: Quadrilateral<'photo'>): (x: number, y: number) => number {
  const sides = frame.map((a, i) => {
    const b = frame[(i + 1) % 4]!;
    const length = Math.hypot(b[0] - a[0], b[1] - a[1]);
    return { a, nx: (b[1] - a[1]) / length, ny: -(b[0] - a[0]) / length };
  });
  return (x, y) => Math.max(...sides.map(({ a, nx, ny }) => (x - a[0]) * nx + (y - a[1]) * ny));
}

/** Made-up turf with frames of flat colour lying on it: 600 x 450 pixels, pipes 10 wide. */
export function framedTurf(frames: readonly Quadrilateral<'photo'>[], pipe: Rgb): RgbaRaster {
  const distances = frames.map(distanceOutward);
  return syntheticTurf(600, 450, (x, y) => {
    for (const distance of distances) {
      const out = distance(x + 0.5, y + 0.5);
      if (out >= 0 && out < 10) return pipe;
    }
    // patches of lighter grass and bare ground, some 50 pixels wide
    const wave = Math.sin(x / 17) * Math.cos(y / 23) + Math.sin((x + 2 * y) / 41);
    return wave > 1 ? TURF_COLOURS.light : wave < -1.2 ? TURF_COLOURS.ground : TURF_COLOURS.dark;
  });
}
