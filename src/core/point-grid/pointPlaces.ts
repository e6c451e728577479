import { mapPoint } from '../geometry/homography.ts';
import type { MeasuredArea } from '../geometry/measuredArea.ts';
import type { PhotoPoint, Quadrilateral } from '../geometry/points.ts';
import type { PointCall } from './pointCall.ts';
import { currentPoints, isMeasured, type PointSet, plotToPhoto } from './pointSet.ts';

/** Where a point lies in the photo now. */
export interface PointPlace {
  readonly id: number;
  readonly at: PhotoPoint;
  /** Outside the frame or on ignored ground: kept and marked, not counted. */
  readonly isOutside: boolean;
}

/**
 * Places of the points that are to be called, under the frame as it is now.
 *
 * A point without a call moves with the frame. A point that somebody called stays where it was looked at (by
 * its first call, so that all observers see the same place), since the call says nothing about any other
 * place; it can come to lie outside.
 */
export function pointPlaces(
  set: PointSet,
  calls: readonly PointCall[],
  corners: Quadrilateral<'photo'>,
  area: MeasuredArea,
): PointPlace[] {
  const firstPlace = new Map<number, PhotoPoint>();
  for (const { pointId, at } of calls) if (!firstPlace.has(pointId)) firstPlace.set(pointId, at);
  const toPhoto = plotToPhoto(set.extent, corners);
  return currentPoints(set).map(({ id, at: plotAt }) => {
    const at = firstPlace.get(id) ?? mapPoint<'plot', 'photo'>(toPhoto, plotAt);
    return { id, at, isOutside: !isMeasured(area, at) };
  });
}
