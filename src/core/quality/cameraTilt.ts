import { homographyBetween } from '../geometry/homography.ts';
import type { PlotFrame } from '../geometry/plotFrame.ts';
import { plotPoint, type Quadrilateral } from '../geometry/points.ts';

/** Diagonal of 24 x 36 mm film, to which focal lengths "in 35 mm film" refer. */
const FILM_DIAGONAL_MM = Math.sqrt(24 * 24 + 36 * 36);
/** Main cameras of phones, where the photo does not say; common practice, no source. */
export const USUAL_FOCAL_LENGTH_35_MM = 26;

/**
 * Angle between the camera's axis and straight down onto the frame's plane, in degrees.
 *
 * From the homography of a camera with square pixels whose axis meets the middle of the photo. Where the frame's size
 * is not known it is taken for a square.
 *
 * @param focalLength35Mm as noted by the camera; null takes the usual one, which is good to a few degrees
 * @see Zhang 2000, IEEE TPAMI 22:1330, section 3.1: the first two columns are the plane's axes seen by the camera
 */
export function cameraTiltDegrees(
  { corners, sizeMm }: PlotFrame,
  widthPx: number,
  heightPx: number,
  focalLength35Mm: number | null,
): number {
  const [w, h] = sizeMm ?? [1, 1];
  const ground: Quadrilateral<'plot'> = [plotPoint(0, 0), plotPoint(w, 0), plotPoint(w, h), plotPoint(0, h)];
  const focalPx =
    (Math.sqrt(widthPx * widthPx + heightPx * heightPx) * (focalLength35Mm ?? USUAL_FOCAL_LENGTH_35_MM)) /
    FILM_DIAGONAL_MM;
  const [a, b, , d, e, , g, k] = homographyBetween(ground, corners);
  // axes of the ground in camera coordinates
  const axis = (x: number, y: number, z: number) => {
    const [u, v] = [(x - (widthPx / 2) * z) / focalPx, (y - (heightPx / 2) * z) / focalPx];
    return [u, v, z] as const;
  };
  const [p, q] = [axis(a, d, g), axis(b, e, k)];
  const normal = [p[1] * q[2] - p[2] * q[1], p[2] * q[0] - p[0] * q[2], p[0] * q[1] - p[1] * q[0]] as const;
  const length = Math.sqrt(normal[0] ** 2 + normal[1] ** 2 + normal[2] ** 2);
  return (Math.acos(Math.min(1, Math.abs(normal[2]) / length)) * 180) / Math.PI;
}
