import type { PhotoPoint } from '../geometry/points.ts';
import type { CoverClass } from '../trial/coverClass.ts';
import { repeatableRandom, seedFor, shuffled } from '../trial/repeatableRandom.ts';
import type { GapRule } from '../trial/trial.ts';
import { callsOf, type PointCall } from './pointCall.ts';
import type { PointPlace } from './pointPlaces.ts';

/** One observer calling the points of one photo. */
export interface CallSession {
  readonly observer: string;
  readonly gapRule: GapRule;
  /** Point ids in the order in which this observer sees them. */
  readonly order: readonly number[];
  readonly places: ReadonlyMap<number, PhotoPoint>;
  /** Index into `order` of the point shown; `order.length` when all are done. */
  readonly position: number;
  readonly paused: boolean;
  /** All calls of this observer on these points, those of earlier sittings included, oldest first. */
  readonly calls: readonly PointCall[];
}

export type CallAction =
  /** Calls the point shown; `classId` null: cannot tell. */
  | { readonly type: 'call'; readonly classId: string | null; readonly calledAt: string }
  | { readonly type: 'back' | 'forward' | 'pause' | 'resume' };

export interface CallSessionStart {
  readonly observer: string;
  readonly gapRule: GapRule;
  readonly places: readonly PointPlace[];
  /** Calls made so far on this photo, by anybody. */
  readonly calls: readonly PointCall[];
  readonly seed: number;
}

/**
 * Starts or takes up a sitting: the same order as before, at the first point without a call. Points outside
 * are not shown.
 *
 * The order is shuffled, so that a neighbour's call is no hint and fatigue does not follow the rows; each
 * observer has an order of his or her own.
 */
export function startCallSession({ observer, gapRule, places, calls, seed }: CallSessionStart): CallSession {
  const inside = places.filter(({ isOutside }) => !isOutside);
  const ids = inside.map(({ id }) => id).sort((a, b) => a - b);
  const order = shuffled(ids, repeatableRandom(seedFor(seed, 'order of points', observer)));
  const shown = new Map(inside.map(({ id, at }) => [id, at]));
  const own = calls.filter((call) => call.observer === observer && shown.has(call.pointId));
  const session = { observer, gapRule, order, places: shown, position: 0, paused: false, calls: own };
  return { ...session, position: nextUnlabelled(session, -1) };
}

/**
 * The session after an action; the same object where the action means nothing (paused, all done, at the first
 * point).
 *
 * Holds the place of each point itself, so actions that arrive faster than the screen draws each meet the
 * point that is then due: none is lost and none is booked on the point before.
 */
export function reduceCallSession(session: CallSession, action: CallAction): CallSession {
  const { order, position, paused } = session;
  switch (action.type) {
    case 'pause':
      return paused ? session : { ...session, paused: true };
    case 'resume':
      return paused ? { ...session, paused: false } : session;
    case 'back':
      return paused || position === 0 ? session : { ...session, position: position - 1 };
    case 'forward':
      return paused || position >= order.length ? session : { ...session, position: position + 1 };
    case 'call': {
      const pointId = order[position];
      if (paused || pointId === undefined) return session;
      const { classId, calledAt } = action;
      const { observer, gapRule, places } = session;
      const call = { pointId, observer, classId, at: places.get(pointId)!, calledAt, gapRule };
      const next = { ...session, calls: [...session.calls, call] };
      return { ...next, position: nextUnlabelled(next, position) };
    }
  }
}

/** The point to show; null when all are done. */
export function pointShown({ order, position, places }: CallSession): Omit<PointPlace, 'isOutside'> | null {
  const id = order[position];
  return id === undefined ? null : { id, at: places.get(id)! };
}

/** How far the observer has come. */
export function callProgress(session: CallSession): { readonly done: number; readonly all: number } {
  return { done: callsOf(session.calls, session.observer).size, all: session.order.length };
}

/** Keys beside those of the classes, which are capital letters and digits. */
export const CANNOT_TELL_KEY = '.';
export const BACK_KEY = 'Backspace';

/**
 * What a key means while points are called; null where it means nothing. A key held down (`isRepeat`) counts
 * once, or one long press would call several points.
 *
 * @param key as `KeyboardEvent.key`; letters in either case
 */
export function actionOfKey(
  key: string,
  isRepeat: boolean,
  classes: readonly CoverClass[],
  calledAt: string,
): CallAction | null {
  if (isRepeat) return null;
  if (key === BACK_KEY) return { type: 'back' };
  if (key === CANNOT_TELL_KEY) return { type: 'call', classId: null, calledAt };
  const called = classes.find((coverClass) => coverClass.key === key.toUpperCase());
  return called ? { type: 'call', classId: called.id, calledAt } : null;
}

/**
 * The next point without a call after a position, from the start again at the end; `order.length` when there
 * is none.
 */
function nextUnlabelled({ order, calls, observer }: CallSession, position: number): number {
  const called = callsOf(calls, observer);
  const after = order.findIndex((id, index) => index > position && !called.has(id));
  if (after >= 0) return after;
  const before = order.findIndex((id) => !called.has(id));
  return before >= 0 ? before : order.length;
}
