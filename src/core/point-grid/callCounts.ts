import { groupBy } from '../trial/groupBy.ts';
import { callsOf, type PointCall } from './pointCall.ts';
import type { PointPlace } from './pointPlaces.ts';
import type { PointSet } from './pointSet.ts';

/** Points of one frame by what was said at them, for one observer. */
export interface CallCounts {
  /** In class order. */
  readonly hits: readonly number[];
  /** Looked at without a verdict. */
  readonly indeterminate: number;
  /** Inside and not yet called. */
  readonly unlabelled: number;
  /** Outside the measured area, called or not: never among the hits. */
  readonly outside: number;
}

/** Points with a verdict. */
export const judgedPoints = ({ hits }: Pick<CallCounts, 'hits'>): number =>
  hits.reduce((sum, count) => sum + count, 0);

/**
 * Counts the calls of one observer on one photo.
 *
 * @throws RangeError if a call names a class that is not among `classIds`
 */
export function countCalls(
  places: readonly PointPlace[],
  calls: readonly PointCall[],
  observer: string,
  classIds: readonly string[],
): CallCounts {
  const own = callsOf(calls, observer);
  const hits = classIds.map(() => 0);
  let [indeterminate, unlabelled, outside] = [0, 0, 0];
  for (const { id, isOutside } of places) {
    const call = own.get(id);
    if (isOutside) outside += 1;
    else if (call === undefined) unlabelled += 1;
    else if (call.classId === null) indeterminate += 1;
    else {
      const index = classIds.indexOf(call.classId);
      if (index < 0) {
        throw new RangeError(`point ${id} is called "${call.classId}"; classes are ${classIds.join(', ')}`);
      }
      hits[index]! += 1;
    }
  }
  return { hits, indeterminate, unlabelled, outside };
}

/** The same for each transect line by itself, in the order of the lines. */
export function countCallsByLine(
  { points }: PointSet,
  places: readonly PointPlace[],
  calls: readonly PointCall[],
  observer: string,
  classIds: readonly string[],
): CallCounts[] {
  const lineOf = new Map(points.map(({ id, line }) => [id, line]));
  return [...groupBy(places, ({ id }) => lineOf.get(id))]
    .sort(([a], [b]) => (a ?? 0) - (b ?? 0))
    .map(([, own]) => countCalls(own, calls, observer, classIds));
}
