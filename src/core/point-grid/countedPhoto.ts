import type { GapRule } from '../trial/trial.ts';
import { type CallCounts, countCalls, countCallsByLine } from './callCounts.ts';
import { estimateTransectCover } from './clusteredEstimate.ts';
import type { VerdictPair } from './observerAgreement.ts';
import { callsOf, callsUnderOtherRule, type PointCall } from './pointCall.ts';
import { estimateFrameCover, type PointEstimate } from './pointEstimate.ts';
import type { PointPlace } from './pointPlaces.ts';
import type { PointSet } from './pointSet.ts';

/** What a mask says at the points of its photo. */
export interface MaskAtPoints {
  /** Label by point id: 1 .. number of classes in class order; points that are not measured are left out. */
  readonly labels: ReadonlyMap<number, number>;
  /** The mask's share of each class, in class order; adds to 1. */
  readonly mappedFraction: readonly number[];
}

/** The points of one photo, with all that was said at them. */
export interface CountedPhoto {
  readonly photoId: string;
  readonly plot: string | null;
  readonly ratingDate: string | null;
  /** Null where the photo belongs to no plot of the trial. */
  readonly treatment: string | null;
  /** Whether a model was taught on it: its mask then looks better than others do. */
  readonly hasStrokes: boolean;
  readonly set: PointSet;
  readonly places: readonly PointPlace[];
  /** Of all observers, under the trial's present rule for small gaps. */
  readonly calls: readonly PointCall[];
  /** Calls under another rule than the trial has now: they answer another question and are not counted. */
  readonly otherRuleCalls: number;
  /** Null where there is no mask. */
  readonly mask: MaskAtPoints | null;
}

/** The calls that count under a rule, and how many do not. */
export function splitByRule(
  calls: readonly PointCall[],
  rule: GapRule,
): Pick<CountedPhoto, 'calls' | 'otherRuleCalls'> {
  const others = new Set(callsUnderOtherRule(calls, rule));
  return { calls: calls.filter((call) => !others.has(call)), otherRuleCalls: others.size };
}

/** Points of one photo by what one observer said at them. */
export const countsOf = (
  { places, calls }: CountedPhoto,
  observer: string,
  classIds: readonly string[],
): CallCounts => countCalls(places, calls, observer, classIds);

/** Cover of the ground in the frame of one photo, by one observer; lines are taken as clusters. */
export function estimatePhotoCover(
  photo: CountedPhoto,
  observer: string,
  classIds: readonly string[],
): PointEstimate {
  const { set, places, calls } = photo;
  if (set.design.kind !== 'transect-lines') return estimateFrameCover(countsOf(photo, observer, classIds));
  const lines = countCallsByLine(set, places, calls, observer, classIds);
  return lines.length > 0
    ? estimateTransectCover(lines)
    : estimateFrameCover(countsOf(photo, observer, classIds));
}

/** Whether an observer has looked at every point inside the frame, and there is one. */
export function isCounted(photo: CountedPhoto, observer: string, classIds: readonly string[]): boolean {
  const { hits, indeterminate, unlabelled } = countsOf(photo, observer, classIds);
  return unlabelled === 0 && hits.reduce((sum, count) => sum + count, indeterminate) > 0;
}

/** Everybody who called a point, in the order of their first call. */
export const observersOf = (photos: readonly Pick<CountedPhoto, 'calls'>[]): string[] => [
  ...new Set(photos.flatMap(({ calls }) => calls.map(({ observer }) => observer))),
];

/** What two observers said at the points that both have called, photo by photo. */
export function verdictPairs(
  photos: readonly Pick<CountedPhoto, 'places' | 'calls'>[],
  first: string,
  second: string,
  classIds: readonly string[],
): VerdictPair[][] {
  const verdict = (classId: string | null) => (classId === null ? null : classIds.indexOf(classId));
  return photos.map(({ places, calls }) => {
    const [a, b] = [callsOf(calls, first), callsOf(calls, second)];
    return places.flatMap(({ id, isOutside }): VerdictPair[] => {
      const [mine, theirs] = [a.get(id), b.get(id)];
      return !isOutside && mine && theirs ? [[verdict(mine.classId), verdict(theirs.classId)]] : [];
    });
  });
}
