import { type Homography, homographyBetween } from '../../core/geometry/homography.ts';
import { type PhotoPoint, type Quadrilateral, screenPoint } from '../../core/geometry/points.ts';

/** A CSS transform, about the element's top left corner, that maps its pixels as the homography says. */
export function projectiveTransform([a, b, c, d, e, f, g, h, i]: Homography): string {
  return `matrix3d(${[a, d, 0, g, b, e, 0, h, 0, 0, 1, 0, c, f, 0, i].join(',')})`;
}

/** The homography that lays a quadrilateral of an element's pixels on a box of this size. */
export const ontoBox = (corners: Quadrilateral<'photo'>, width: number, height: number): Homography =>
  homographyBetween(corners, [
    screenPoint(0, 0),
    screenPoint(width, 0),
    screenPoint(width, height),
    screenPoint(0, height),
  ]);

/** Mean width over mean height of a frame: of its true size, else as it is seen. */
export function aspectOf(
  corners: Quadrilateral<'photo'>,
  sizeMm: readonly [number, number] | null,
  quarters = 0,
): number {
  const [a, b, c, d] = corners;
  const length = (p: PhotoPoint, q: PhotoPoint) => Math.hypot(q[0] - p[0], q[1] - p[1]);
  const aspect = sizeMm
    ? sizeMm[0] / sizeMm[1]
    : (length(a, b) + length(d, c)) / (length(a, d) + length(b, c));
  return quarters % 2 === 0 ? aspect : 1 / aspect;
}

/** The longest of 1, 2, 5, 10, 20 … mm that fits. */
export function scaleBarMm(most: number): number {
  const power = 10 ** Math.floor(Math.log10(most));
  return (most >= 5 * power ? 5 : most >= 2 * power ? 2 : 1) * power;
}
