import type { CorrectionPatch } from '../../../core/mask/correctionPatch.ts';
import {
  type EditHistory,
  NO_EDITS,
  recordEdit,
  redoStep,
  undoStep,
} from '../../../core/mask/editHistory.ts';
import type { CorrectionPatchRecord } from '../../../storage/records/correctionRecords.ts';
import type { GestureKind, KeptGesture } from './correctingState.ts';

export interface StoredGesture {
  readonly record: CorrectionPatchRecord;
  /** In the labels of the present class list; null where its bytes are damaged. */
  readonly patch: CorrectionPatch | null;
}

/** The gestures of a photo: what each of them changed, who made it and why, and which are undone. */
export class GestureRecord {
  #history: EditHistory = NO_EDITS;
  #nextSequence = 1;
  readonly #patches = new Map<number, CorrectionPatch>();
  readonly #gestures = new Map<number, KeptGesture>();

  /** @param stored the oldest first; undo ends at one whose bytes are damaged, which has no patch */
  constructor(stored: readonly StoredGesture[] = []) {
    for (const { record, patch } of stored) {
      if (!patch) {
        this.#patches.clear();
        this.#gestures.clear();
        continue;
      }
      const { sequence, gesture, by, at, reason } = record;
      this.#patches.set(sequence, patch);
      this.#gestures.set(sequence, { sequence, gesture, by, at, reason, pixels: patch.changedPixels });
    }
    const records = stored.map(({ record }) => record);
    this.#nextSequence = Math.max(0, ...records.map(({ sequence }) => sequence)) + 1;
    const kept = records.filter(({ sequence }) => this.#patches.has(sequence));
    const ids = (undone: boolean) =>
      kept.filter((one) => one.undone === undone).map((one) => `${one.sequence}`);
    this.#history = { done: ids(false), undone: ids(true).reverse() };
  }

  get canUndo(): boolean {
    return this.#history.done.length > 0;
  }

  get canRedo(): boolean {
    return this.#history.undone.length > 0;
  }

  /** The newest first. */
  inForce(): readonly KeptGesture[] {
    return this.#history.done.toReversed().flatMap((id) => {
      const gesture = this.#gestures.get(Number(id));
      return gesture ? [gesture] : [];
    });
  }

  /**
   * Adds a finished gesture.
   *
   * @returns its sequence, and those of undone gestures that it ends
   */
  add(
    patch: CorrectionPatch,
    facts: { readonly gesture: GestureKind; readonly by: string | null; readonly at: string },
  ): { readonly sequence: number; readonly forgotten: readonly number[] } {
    const sequence = this.#nextSequence;
    this.#nextSequence += 1;
    const { history, forgotten } = recordEdit(this.#history, `${sequence}`);
    this.#history = history;
    const gone = forgotten.map(Number);
    for (const one of gone) {
      this.#patches.delete(one);
      this.#gestures.delete(one);
    }
    this.#patches.set(sequence, patch);
    this.#gestures.set(sequence, { sequence, ...facts, reason: null, pixels: patch.changedPixels });
    return { sequence, forgotten: gone };
  }

  /** Steps back or forward; null where there is no such step. @returns the patch of the gesture, as it was made */
  step(back: boolean): { readonly sequence: number; readonly patch: CorrectionPatch } | null {
    const step = back ? undoStep(this.#history) : redoStep(this.#history);
    if (!step) return null;
    this.#history = step.history;
    const sequence = Number(step.patchId);
    return { sequence, patch: this.#patches.get(sequence)! };
  }

  /** Says why gestures were made. */
  giveReason(sequences: readonly number[], reason: string): void {
    for (const sequence of sequences) {
      const gesture = this.#gestures.get(sequence);
      if (gesture) this.#gestures.set(sequence, { ...gesture, reason });
    }
  }
}
