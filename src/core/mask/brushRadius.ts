import { determinant } from '../geometry/homography.ts';
import type { MeasuredArea } from '../geometry/measuredArea.ts';
import type { PhotoPoint } from '../geometry/points.ts';

/**
 * The radius in photo pixels of a brush that is so wide on the ground, at one place of the photo.
 *
 * Takes the local scale, so that a brush on a tilted photo covers the same ground everywhere: the side of a pixel on
 * the ground is the square root of the ground map's Jacobian.
 *
 * @returns null where the scale is not known, or where the place lies beyond the horizon of the ground map
 */
export function brushRadiusPx(area: MeasuredArea, at: PhotoPoint, radiusMm: number): number | null {
  const { groundMap: map, millimetresPerPixel } = area;
  if (map === null || millimetresPerPixel === null) return null;
  const depth = map[6] * at[0] + map[7] * at[1] + map[8];
  if (!(depth > 0)) return null;
  return radiusMm / Math.sqrt(determinant(map) / depth ** 3);
}
