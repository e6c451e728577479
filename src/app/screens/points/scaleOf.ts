import { polygonAreaPx } from '../../../core/geometry/plotFrame.ts';
import type { CountedPhoto } from '../../../core/point-grid/countedPhoto.ts';

/** Millimetres to a photo pixel, mean over the frame in which the points were drawn; null without a scale. */
export function scaleOf({ set: { extent, placedIn } }: CountedPhoto): number | null {
  const [width, height] = extent;
  // points of photos without a scale are placed in a unit square
  if (width === 1 && height === 1) return null;
  return Math.sqrt((width * height) / Math.abs(polygonAreaPx(placedIn)));
}
