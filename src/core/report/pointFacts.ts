import { addMatrices, type MaskAgainstPoints, maskAgainstPoints } from '../cover/errorMatrix.ts';
import { maskErrorsOf } from '../cover/maskErrors.ts';
import { judgedPoints } from '../point-grid/callCounts.ts';
import { type CountedPhoto, countsOf, observersOf } from '../point-grid/countedPhoto.ts';

/** What was counted at points by one observer: the one who judged most. */
export interface PointFacts {
  readonly observer: string;
  /** Others who called points, whose calls are not in the numbers here. */
  readonly otherObservers: readonly string[];
  readonly ratingDates: readonly string[];
  readonly photos: number;
  /** Points with a verdict. */
  readonly points: number;
  /** Looked at without a verdict. */
  readonly indeterminate: number;
  /** Calls of classes that the trial no longer has, by anybody: they are in no number here. */
  readonly ofOtherClasses: number;
  /** Counted photos that a model was taught on: left out of the agreement. */
  readonly withStrokes: number;
  /** Against the automatic masks, by class; null where no photo has both. */
  readonly agreement: {
    readonly photos: number;
    readonly points: number;
    /** Share of these points where the mask says what was called, 0..1. */
    readonly sameFraction: number;
    readonly classes: readonly { readonly classId: string; readonly difference: MaskAgainstPoints }[];
  } | null;
}

/** @returns null where no point was judged */
export function pointFacts(counted: readonly CountedPhoto[], classIds: readonly string[]): PointFacts | null {
  const known = counted.map((photo) => ({
    ...photo,
    calls: photo.calls.filter(({ classId }) => classId === null || classIds.includes(classId)),
  }));
  const ofOtherClasses = calls(counted) - calls(known);
  const byObserver = observersOf(known).map((observer) => ({
    observer,
    ...ofObserver(known, observer, classIds),
  }));
  const [most, ...others] = byObserver.filter(({ points }) => points > 0).sort((a, b) => b.points - a.points);
  if (!most) return null;
  const { observer, judged, points, indeterminate } = most;
  const withStrokes = judged.filter(({ photo }) => photo.hasStrokes).length;
  const checked = judged.flatMap(({ photo, hits }) => {
    const errors = photo.hasStrokes ? null : maskErrorsOf(photo, observer, classIds);
    return errors && errors.points > 0 && photo.mask ? [{ mask: photo.mask, errors, hits }] : [];
  });
  const numbers = checked.map(({ hits }) => judgedPoints({ hits }));
  const matrix = checked.length > 0 ? addMatrices(checked.map(({ errors }) => errors.counts)) : null;
  const all = matrix?.flat().reduce((sum, count) => sum + count, 0) ?? 0;
  return {
    observer,
    otherObservers: others.map((other) => other.observer).sort(),
    ratingDates: [...new Set(judged.flatMap(({ photo }) => photo.ratingDate ?? []))].sort(),
    photos: judged.length,
    points,
    indeterminate,
    ofOtherClasses,
    withStrokes,
    agreement: matrix && {
      photos: checked.length,
      points: all,
      sameFraction: matrix.reduce((sum, row, i) => sum + row[i]!, 0) / all,
      classes: classIds.map((classId, i) => ({
        classId,
        difference: maskAgainstPoints(
          checked.map(({ mask, hits }, at) => ({
            mask: mask.mappedFraction[i]!,
            points: hits[i]! / numbers[at]!,
          })),
          numbers,
        ),
      })),
    },
  };
}

const calls = (photos: readonly CountedPhoto[]) => photos.reduce((sum, photo) => sum + photo.calls.length, 0);

function ofObserver(counted: readonly CountedPhoto[], observer: string, classIds: readonly string[]) {
  const judged = counted.flatMap((photo) => {
    const { hits, indeterminate } = countsOf(photo, observer, classIds);
    return judgedPoints({ hits }) > 0 ? [{ photo, hits, indeterminate }] : [];
  });
  return {
    judged,
    points: judged.reduce((sum, { hits }) => sum + judgedPoints({ hits }), 0),
    indeterminate: judged.reduce((sum, { indeterminate }) => sum + indeterminate, 0),
  };
}
