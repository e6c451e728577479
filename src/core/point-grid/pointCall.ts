import type { PhotoPoint } from '../geometry/points.ts';
import type { GapRule } from '../trial/trial.ts';

/**
 * What one observer said at one point. Calls are only ever added: a later one of the same observer replaces
 * an earlier one.
 */
export interface PointCall {
  readonly pointId: number;
  /** By the name or initials the observer signs with. */
  readonly observer: string;
  /** Null: the observer looked and could not tell. */
  readonly classId: string | null;
  /** The place in the photo that was looked at: a call is about this place, wherever the frame goes later. */
  readonly at: PhotoPoint;
  /** Instant, ISO 8601. */
  readonly calledAt: string;
  /** The rule for small gaps that was shown to the observer. */
  readonly gapRule: GapRule;
}

/** Not yet called, called as a class, or looked at without a verdict. */
export type PointState =
  | { readonly state: 'unlabelled' }
  | { readonly state: 'called'; readonly classId: string }
  | { readonly state: 'indeterminate' };

/** The call that counts for each point of one observer, by point id. */
export function callsOf(calls: readonly PointCall[], observer: string): Map<number, PointCall> {
  return new Map(calls.filter((call) => call.observer === observer).map((call) => [call.pointId, call]));
}

export function pointState(call: PointCall | undefined): PointState {
  if (call === undefined) return { state: 'unlabelled' };
  return call.classId === null ? { state: 'indeterminate' } : { state: 'called', classId: call.classId };
}

/**
 * Calls that were made under another rule for small gaps than the trial has now: they answer another
 * question.
 */
export function callsUnderOtherRule<T extends Pick<PointCall, 'gapRule'>>(
  calls: readonly T[],
  rule: GapRule,
): T[] {
  return calls.filter(({ gapRule }) => gapRule.kind !== rule.kind || sizeOf(gapRule) !== sizeOf(rule));
}

const sizeOf = (rule: GapRule): number => (rule.kind === 'every-pixel' ? 0 : rule.smallerThanMm);
