import type { CheckedPhoto, DeflatedMask, MeasureJob, MeasureOutcome } from '../../../workers/measureApi.ts';
import type { DecoderVerdict } from '../../core/photo-file/decoderSelfTest.ts';
import type { MeasureWorker } from './measureWorker.ts';

export interface WorkerPoolOptions {
  readonly startWorker: () => MeasureWorker;
  /** Most workers at the same time, 1 or more. */
  readonly size: number;
  /** Calls back again and again until stopped: the watchdog's clock. @default a timer of the browser */
  readonly every?: (intervalMs: number, tick: () => void) => () => void;
  /** Photos after which a worker is replaced, for its memory never shrinks. @default 32 */
  readonly photosPerWorker?: number;
  /** How long a worker may show no sign of life. Generous: a phone may take seconds to decode. @default 60 */
  readonly silenceS?: number;
}

/** How one run ended. */
export type RunOutcome =
  | MeasureOutcome
  /** The worker died, or showed no sign of life for too long. */
  | { readonly state: 'died'; readonly detail: string }
  /** Something not foreseen was thrown. Errors cross as name and message only. */
  | { readonly state: 'unexpected'; readonly name: string; readonly message: string }
  /** No worker could be started: nothing is wrong with this photo. */
  | { readonly state: 'not-started'; readonly detail: string };

export interface Run {
  readonly outcome: Promise<RunOutcome>;
  /** The mask, deflated; null unless the outcome is `done`. Settles after `outcome`, never fails. */
  readonly mask: Promise<DeflatedMask | null>;
}

const WATCH_INTERVAL_MS = 5_000;

/** One worker with what the pool knows of it. */
interface Slot {
  readonly worker: MeasureWorker;
  /** Settles with the self-test, or as null if the worker died before it could be done. */
  readonly ready: Promise<DecoderVerdict | null>;
  isReady: boolean;
  busy: boolean;
  photos: number;
  silentTicks: number;
  death: { readonly detail: string; readonly beforeReady: boolean } | null;
  readonly onDeath: Set<() => void>;
}

const browserTimer = (intervalMs: number, tick: () => void) => {
  const timer = setInterval(tick, intervalMs);
  return () => clearInterval(timer);
};

/** Workers that measure photos, one photo a worker. Workers are started when needed, and replaced when used up or dead. */
export class WorkerPool {
  readonly size: number;
  readonly #startWorker: () => MeasureWorker;
  readonly #photosPerWorker: number;
  readonly #silentTicksAllowed: number;
  readonly #stopWatching: () => void;
  readonly #slots = new Set<Slot>();
  #verdict: DecoderVerdict | null = null;

  constructor(options: WorkerPoolOptions) {
    const { startWorker, size, every = browserTimer, photosPerWorker = 32, silenceS = 60 } = options;
    if (!(size >= 1)) throw new RangeError(`size must be 1 or more, got ${size}`);
    this.size = size;
    this.#startWorker = startWorker;
    this.#photosPerWorker = photosPerWorker;
    this.#silentTicksAllowed = Math.ceil((silenceS * 1000) / WATCH_INTERVAL_MS);
    this.#stopWatching = every(WATCH_INTERVAL_MS, () => this.#watch());
  }

  /** How many runs can be started now. */
  get free(): number {
    return this.size - [...this.#slots].filter(({ busy }) => busy).length;
  }

  /** How this browser decodes; null where no worker can be started. Waits for a worker, or starts one. */
  async decoder(): Promise<DecoderVerdict | null> {
    return this.#verdict ?? (this.#slots.values().next().value ?? this.#addSlot()).ready;
  }

  /**
   * Measures one photo.
   *
   * Aborting answers `cancelled` at once; the worker stops at its next strip, and what it still answers is dropped.
   *
   * @param job its bytes are transferred
   * @param onChecked told what was found in the photo, before it is measured; not after an abort
   * @throws RangeError if every worker is busy
   */
  run(job: MeasureJob, signal: AbortSignal, onChecked: (checked: CheckedPhoto) => void = () => {}): Run {
    if (this.free < 1) throw new RangeError(`all ${this.size} workers are busy`);
    const slot = [...this.#slots].find(({ busy }) => !busy) ?? this.#addSlot();
    slot.busy = true;
    slot.silentTicks = 0;
    const settled = this.#measure(slot, job, signal, onChecked);
    const mask = settled.then((outcome) => this.#finish(slot, job.jobId, outcome));
    const cancelled = new Promise<RunOutcome>((resolve) => {
      const cancel = () => resolve({ state: 'cancelled' });
      if (signal.aborted) cancel();
      else signal.addEventListener('abort', cancel, { once: true });
    });
    return { outcome: Promise.race([cancelled, settled]), mask };
  }

  /** Ends all workers at once. */
  stop(): void {
    this.#stopWatching();
    for (const slot of [...this.#slots]) this.#bury(slot, 'the pool was stopped');
  }

  async #measure(
    slot: Slot,
    job: MeasureJob,
    signal: AbortSignal,
    onChecked: (checked: CheckedPhoto) => void,
  ): Promise<RunOutcome> {
    const cancel = () => slot.worker.cancel(job.jobId);
    const death = new Promise<RunOutcome>((resolve) => {
      slot.onDeath.add(() => {
        const { detail, beforeReady } = slot.death!;
        resolve({ state: beforeReady ? 'not-started' : 'died', detail });
      });
    });
    const work = async (): Promise<RunOutcome> => {
      await slot.ready;
      if (slot.death) return death;
      if (signal.aborted) return { state: 'cancelled' };
      slot.photos += 1;
      signal.addEventListener('abort', cancel, { once: true });
      const alive = () => {
        slot.silentTicks = 0;
      };
      try {
        return await slot.worker.measure(job, alive, (checked) => {
          if (!signal.aborted) onChecked(checked);
        });
      } catch (error) {
        const { name, message } = error as Error;
        return { state: 'unexpected', name, message };
      } finally {
        signal.removeEventListener('abort', cancel);
      }
    };
    return Promise.race([death, work()]);
  }

  /** Frees the worker, once its mask was taken. A worker that threw something unforeseen is not trusted again. */
  async #finish(slot: Slot, jobId: string, outcome: RunOutcome): Promise<DeflatedMask | null> {
    slot.silentTicks = 0;
    let mask: DeflatedMask | null = null;
    if (outcome.state === 'done') {
      const died = new Promise<null>((resolve) => slot.onDeath.add(() => resolve(null)));
      mask = await Promise.race([died, slot.worker.takeMask(jobId).catch(() => null)]);
    }
    slot.onDeath.clear();
    slot.busy = false;
    if (outcome.state === 'unexpected' || slot.photos >= this.#photosPerWorker) this.#bury(slot, 'replaced');
    return mask;
  }

  #addSlot(): Slot {
    const worker = this.#startWorker();
    const onDeath = new Set<() => void>();
    const ready = new Promise<DecoderVerdict | null>((resolve) => {
      worker.selfTest().then(
        (verdict) => {
          slot.isReady = true;
          this.#verdict = verdict;
          resolve(verdict);
        },
        (error: Error) => this.#bury(slot, error.message),
      );
      onDeath.add(() => resolve(null));
    });
    const slot: Slot = {
      worker,
      ready,
      isReady: false,
      busy: false,
      photos: 0,
      silentTicks: 0,
      death: null,
      onDeath,
    };
    worker.onDeath((detail) => this.#bury(slot, detail));
    this.#slots.add(slot);
    return slot;
  }

  /** Ends a worker, and tells whoever waits for it. */
  #bury(slot: Slot, detail: string): void {
    if (slot.death) return;
    slot.death = { detail, beforeReady: !slot.isReady };
    slot.worker.terminate();
    this.#slots.delete(slot);
    for (const tell of [...slot.onDeath]) tell();
  }

  /** Counts ticks and not hours, so that a laptop which slept for an hour is not taken for a dead worker. */
  #watch(): void {
    for (const slot of [...this.#slots]) {
      if (!slot.busy) continue;
      slot.silentTicks += 1;
      if (slot.silentTicks > this.#silentTicksAllowed) this.#bury(slot, 'no sign of life');
    }
  }
}
