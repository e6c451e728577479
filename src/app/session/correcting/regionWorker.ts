import type { MeasureSettings } from '../../../core/cover/measurePhoto.ts';
import type { CorrectWorker } from '../../measuring/correctWorker.ts';

interface OpenWorker {
  readonly worker: CorrectWorker;
  readonly death: Promise<never>;
  hasPhoto: boolean;
}

/** The worker that fills regions of one photo; started when it is first needed, and again after it died. */
export class RegionWorker {
  readonly #start: () => CorrectWorker;
  readonly #readBytes: () => Promise<ArrayBuffer | null>;
  #open: OpenWorker | null = null;

  constructor(start: () => CorrectWorker, readBytes: () => Promise<ArrayBuffer | null>) {
    this.#start = start;
    this.#readBytes = readBytes;
  }

  /** @throws what the task throws, or what the worker died of; it is then ended */
  async do<T>(task: (worker: CorrectWorker) => Promise<T>): Promise<T> {
    const open = this.#opened();
    try {
      return await Promise.race([task(open.worker), open.death]);
    } catch (error) {
      this.stop();
      throw error;
    }
  }

  /** Gives the worker the photo where it does not have it yet. Part of a task. */
  async givePhoto(settings: MeasureSettings): Promise<void> {
    const open = this.#opened();
    if (open.hasPhoto) return;
    const bytes = await this.#readBytes();
    if (!bytes) throw new Error('the browser no longer holds the bytes of this photo');
    const outcome = await open.worker.read(bytes, settings);
    if (!outcome.ok) throw new Error(outcome.problem.code);
    open.hasPhoto = true;
  }

  /** The photo is measured in another way: it is given again when it is next needed. */
  forgetPhoto(): void {
    if (this.#open) this.#open.hasPhoto = false;
  }

  stop(): void {
    this.#open?.worker.terminate();
    this.#open = null;
  }

  #opened(): OpenWorker {
    if (this.#open) return this.#open;
    const worker = this.#start();
    const death = new Promise<never>((_, reject) => {
      worker.onDeath((detail) => reject(new Error(detail)));
    });
    // it may die while nobody waits for it
    death.catch(() => {});
    this.#open = { worker, death, hasPhoto: false };
    return this.#open;
  }
}
