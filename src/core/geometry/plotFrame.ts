import { homographyBetween } from './homography.ts';
import { type PhotoPoint, photoPoint, plotPoint, type Quadrilateral } from './points.ts';

/** The inner edge of the frame on the turf, as seen in the upright photo, and its true inner size if known. */
export interface PlotFrame {
  readonly corners: Quadrilateral<'photo'>;
  /** Inner width and height. */
  readonly sizeMm: readonly [widthMm: number, heightMm: number] | null;
}

/** Why four corners are no frame of a photo; `corner` counts from 0 at the top left. */
export type FrameProblem =
  | { readonly code: 'frame-corner-outside'; readonly corner: number; readonly x: number; readonly y: number }
  | { readonly code: 'frame-corners-crossed' }
  | { readonly code: 'frame-too-small'; readonly areaPx: number }
  | { readonly code: 'frame-too-slanted'; readonly depthRatio: number };

/** Frames below this area hold too few pixels to speak of a share. */
export const SMALLEST_FRAME_PX = 1000;

/**
 * The far side of a frame may look this many times smaller than the near side. A camera held 30 degrees off straight
 * down at arm's length gives about 1.5; at 4 a pixel of the far side stands for 64 times the ground of a near one.
 */
export const LARGEST_DEPTH_RATIO = 4;

const cross = ([ax, ay]: PhotoPoint, [bx, by]: PhotoPoint, [cx, cy]: PhotoPoint): number =>
  (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);

/** Area of a polygon by the shoelace formula, in square pixels; positive when its corners run clockwise on screen. */
export function polygonAreaPx(polygon: readonly PhotoPoint[]): number {
  let twice = 0;
  for (let i = 0; i < polygon.length; i += 1) {
    const [ax, ay] = polygon[i]!;
    const [bx, by] = polygon[(i + 1) % polygon.length]!;
    twice += ax * by - bx * ay;
  }
  return twice / 2;
}

/**
 * What is wrong with a frame, or null.
 *
 * A frame is a convex quadrilateral, corners clockwise from the top left, all of it within the photo
 * (the photo's own edges included).
 */
export function frameProblem(
  corners: Quadrilateral<'photo'>,
  widthPx: number,
  heightPx: number,
): FrameProblem | null {
  for (let corner = 0; corner < 4; corner += 1) {
    const [x, y] = corners[corner]!;
    if (!(x >= 0 && y >= 0 && x <= widthPx && y <= heightPx)) {
      return { code: 'frame-corner-outside', corner, x, y };
    }
  }
  for (let i = 0; i < 4; i += 1) {
    if (!(cross(corners[i]!, corners[(i + 1) % 4]!, corners[(i + 2) % 4]!) > 0)) {
      return { code: 'frame-corners-crossed' };
    }
  }
  const areaPx = polygonAreaPx(corners);
  if (areaPx < SMALLEST_FRAME_PX) return { code: 'frame-too-small', areaPx };
  const ratio = depthRatio(corners);
  return ratio <= LARGEST_DEPTH_RATIO ? null : { code: 'frame-too-slanted', depthRatio: ratio };
}

/** How many times farther than the nearest corner of the frame the farthest is from the camera. */
function depthRatio(corners: Quadrilateral<'photo'>): number {
  const unit = [plotPoint(0, 0), plotPoint(1, 0), plotPoint(1, 1), plotPoint(0, 1)] as const;
  const [, , , , , , g, h, i] = homographyBetween(corners, unit);
  const closeness = corners.map(([x, y]) => g * x + h * y + i);
  const [least, most] = [Math.min(...closeness), Math.max(...closeness)];
  // the sign is the photo's own: its origin may lie beyond the horizon
  if (least > 0) return most / least;
  return most < 0 ? least / most : Number.POSITIVE_INFINITY;
}

/** The frame that covers the whole photo. */
export function wholePhoto(widthPx: number, heightPx: number): Quadrilateral<'photo'> {
  return [photoPoint(0, 0), photoPoint(widthPx, 0), photoPoint(widthPx, heightPx), photoPoint(0, heightPx)];
}
