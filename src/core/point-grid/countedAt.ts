import type { MeasureSettings } from '../cover/measurePhoto.ts';
import { measuredArea } from '../geometry/measuredArea.ts';
import { frameProblem, wholePhoto } from '../geometry/plotFrame.ts';
import { estimatePhotoCover, splitByRule } from './countedPhoto.ts';
import type { PointCall } from './pointCall.ts';
import type { PointEstimate } from './pointEstimate.ts';
import { pointPlaces } from './pointPlaces.ts';
import type { PointSet } from './pointSet.ts';

/**
 * Cover of a photo by one observer's points, under the settings of a figure.
 *
 * @param calls of all observers; those under another rule for small gaps than the settings have are not counted
 * @returns null where the settings do not fit the photo
 */
export function countedAt(
  { widthPx, heightPx }: { readonly widthPx: number; readonly heightPx: number },
  { classes, frame, ignored, neutral, gapRule = { kind: 'every-pixel' } }: MeasureSettings,
  set: PointSet,
  calls: readonly PointCall[],
  observer: string,
): PointEstimate | null {
  if (frame && frameProblem(frame.corners, widthPx, heightPx)) return null;
  const area = measuredArea(widthPx, heightPx, { frame, ignored, neutral });
  const inOrder = [...calls].sort((a, b) => (a.calledAt < b.calledAt ? -1 : Number(a.calledAt > b.calledAt)));
  const { calls: counted } = splitByRule(inOrder, gapRule);
  const places = pointPlaces(set, inOrder, frame?.corners ?? wholePhoto(widthPx, heightPx), area);
  const photo = {
    photoId: '',
    plot: null,
    ratingDate: null,
    treatment: null,
    hasStrokes: false,
    set,
    places,
    calls: counted,
    otherRuleCalls: inOrder.length - counted.length,
    mask: null,
  };
  return estimatePhotoCover(
    photo,
    observer,
    classes.map(({ id }) => id),
  );
}
