import type { ChangeOutcome } from '../../../storage/correctionStore.ts';
import type { Written } from '../../../storage/storageProblem.ts';
import type { CorrectingNotice } from './correctingState.ts';

/** A correction layer on its way into the store, and the revision it is to follow. */
export interface LayerToStore {
  readonly photoId: string;
  readonly revision: number;
  readonly layer: ArrayBuffer;
  readonly classIds: readonly string[];
}

interface LayerWritesParts {
  /** The layer as it is now, as bytes. */
  readonly encode: () => Pick<LayerToStore, 'photoId' | 'layer' | 'classIds'>;
  /** Says what became of a write. */
  readonly settle: (written: Written<unknown>) => void;
  readonly onStored: () => void;
  readonly onRefused: (why: CorrectingNotice) => void;
}

/**
 * Sends changes of a correction layer to the store, one after the other. What was queued behind a refused change is given up
 * with it.
 */
export class LayerWrites {
  /** The state on screen once all that is under way is stored. */
  revision = 0;
  readonly #parts: LayerWritesParts;
  /** A change whose layer has not been turned into bytes yet. */
  #pending: (() => void) | null = null;
  #writes: Promise<void> = Promise.resolve();
  #refusals = 0;

  constructor(parts: LayerWritesParts) {
    this.#parts = parts;
  }

  /**
   * Takes a change in. The layer becomes bytes once the screen has had its turn, and before the next gesture can change it: see
   * `flush`.
   */
  add(write: (layer: LayerToStore) => Promise<Written<ChangeOutcome>>): void {
    const refusals = this.#refusals;
    const { revision } = this;
    this.revision += 1;
    this.#pending = () => {
      const layer = this.#parts.encode();
      this.#writes = this.#writes.then(async () => {
        if (refusals !== this.#refusals) return;
        const refused = await this.#store(write({ ...layer, revision }));
        if (!refused) {
          this.#parts.onStored();
          return;
        }
        this.#refusals += 1;
        this.#parts.onRefused(refused);
      });
    };
    setTimeout(() => this.flush(), 0);
  }

  /** Turns the last change into bytes, so that the layer may change again. */
  flush(): void {
    const pending = this.#pending;
    this.#pending = null;
    pending?.();
  }

  /** Done when all that was flushed is stored or refused. */
  written(): Promise<void> {
    return this.#writes;
  }

  /** @returns why the change was refused */
  async #store(writing: Promise<Written<ChangeOutcome>>): Promise<CorrectingNotice | null> {
    const written = await writing;
    this.#parts.settle(written);
    if (!written.written) return { code: 'not-stored' };
    return written.value.state === 'kept' ? null : { code: 'other-tab-was-first' };
  }
}
