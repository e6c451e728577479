import {
  type CallAction,
  type CallSession,
  type CallSessionStart,
  reduceCallSession,
  startCallSession,
} from '../../core/point-grid/callSession.ts';
import type { PointCall } from '../../core/point-grid/pointCall.ts';
import { ObservableValue } from './observable.ts';

export interface CallingParts {
  /** Stores a call; calls come one after the other, in the order in which they were made. */
  readonly write: (call: PointCall) => Promise<boolean>;
  readonly now: () => Date;
}

/** What a person does at the point on screen. */
export type CallGesture =
  | { readonly type: 'call'; readonly classId: string | null }
  | { readonly type: 'back' | 'forward' | 'pause' | 'resume' };

/**
 * One observer at the points of one photo. The next point is there at once; calls are stored behind it, each in a transaction
 * of its own, in their order.
 */
export class PointCalling {
  readonly session: ObservableValue<CallSession>;
  /** Calls that could not be stored; they are tried again with the next call and when asked. */
  readonly unstored = new ObservableValue(0);
  readonly #parts: CallingParts;
  readonly #waiting: PointCall[] = [];
  #writing: Promise<void> | null = null;
  #lastMs = 0;

  constructor(start: CallSessionStart, parts: CallingParts) {
    this.#parts = parts;
    this.session = new ObservableValue(startCallSession(start));
    this.#lastMs = Math.max(0, ...this.session.get().calls.map(({ calledAt }) => Date.parse(calledAt)));
  }

  act(gesture: CallGesture): void {
    const before = this.session.get();
    const after = reduceCallSession(before, this.#timed(gesture));
    const added = after.calls.slice(before.calls.length);
    this.#waiting.push(...added);
    this.session.set(after);
    if (added.length > 0) void this.store();
  }

  /** @returns once every call so far is stored, or cannot be */
  store(): Promise<void> {
    this.#writing ??= this.#writeAll().finally(() => {
      this.#writing = null;
    });
    return this.#writing;
  }

  async #writeAll(): Promise<void> {
    // one write a turn: a call that comes meanwhile waits behind it
    for (let next = this.#waiting[0]; next; next = this.#waiting[0]) {
      if (!(await this.#parts.write(next))) break;
      this.#waiting.shift();
    }
    this.unstored.set(this.#waiting.length);
  }

  /** No two calls share an instant, so that their order can be told from it. */
  #timed(gesture: CallGesture): CallAction {
    if (gesture.type !== 'call') return gesture;
    this.#lastMs = Math.max(this.#parts.now().getTime(), this.#lastMs + 1);
    return { ...gesture, calledAt: new Date(this.#lastMs).toISOString() };
  }
}
