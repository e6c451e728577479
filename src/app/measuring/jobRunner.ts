import type { CheckedPhoto } from '../../../workers/measureApi.ts';
import type { LabelMask } from '../../core/raster/labelMask.ts';
import type { Overview } from '../../storage/projectOverview.ts';
import type { ProjectStore } from '../../storage/projectStore.ts';
import type { StorageProblem, Written } from '../../storage/storageProblem.ts';
import { chooseNextJob } from './chooseNextJob.ts';
import type { Farewell } from './farewell.ts';
import type { MeasuringRight } from './measuringRight.ts';
import type { RunOutcome, WorkerPool } from './workerPool.ts';

export interface JobRunnerOptions {
  readonly store: ProjectStore;
  readonly pool: WorkerPool;
  readonly right: MeasuringRight;
  readonly farewell: Farewell;
  readonly newId: () => string;
  readonly softwareVersion: string;
  /** The mask of a figure of the photo on screen, straight from the worker. */
  readonly onMask: (figureId: string, mask: LabelMask) => void;
  /** Measuring has stopped: it goes on with `resume`. */
  readonly onHalt: (halt: Halt) => void;
}

/** Why measuring stopped for all photos. */
export type Halt =
  | { readonly code: 'storage'; readonly problem: StorageProblem }
  /** No worker could be started. */
  | { readonly code: 'no-workers'; readonly detail: string };

/** Longer side of the thumbnails, for a list tile of 240 CSS pixels on a dense screen. */
const THUMBNAIL_PX = 480;

/** One photo being measured by this tab. */
interface Running {
  readonly claim: string;
  readonly abort: AbortController;
  /** Settles when all is stored, the mask included. */
  work: Promise<void>;
  /** Whether an overview has shown the claim: before that, an overview without it is merely an older one. */
  seen: boolean;
}

/**
 * Works through the queue of the store: takes a job under a claim, has the pool measure the photo, stores the figure.
 * What is queued, cancelled or paused is said by the overview alone, so that it does not matter which tab asked.
 */
export class JobRunner {
  readonly #options: JobRunnerOptions;
  readonly #running = new Map<string, Running>();
  /** Jobs that were not there to be claimed although the overview had them: it is about to be brought up to date. */
  readonly #refused = new Set<string>();
  #overview: Overview = { photos: [], jobs: new Map(), paused: false };
  #openPhotoId: string | null = null;
  #mayMeasure = false;
  #halted = false;

  constructor(options: JobRunnerOptions) {
    this.#options = options;
  }

  /** Begins as soon as this tab has the right to measure. Jobs that a dead page left running are put back first. */
  start(): void {
    const { right, store, farewell } = this.#options;
    right.acquire(
      async () => {
        const ours = new Set([...this.#running.values()].map(({ claim }) => claim));
        this.#haltUnlessWritten(await store.jobs.recover(ours, farewell.take()));
        this.#mayMeasure = true;
        this.#pump();
      },
      () => {
        this.#mayMeasure = false;
        for (const { abort } of this.#running.values()) abort.abort();
      },
    );
  }

  /** To be called with every new overview. */
  update(overview: Overview): void {
    this.#overview = overview;
    this.#refused.clear();
    for (const [photoId, running] of this.#running) {
      const holds = overview.jobs.get(photoId)?.claim === running.claim;
      if (holds) running.seen = true;
      else if (running.seen) running.abort.abort();
    }
    this.#pump();
  }

  /** The photo on screen goes before all others. */
  setOpenPhoto(photoId: string | null): void {
    this.#openPhotoId = photoId;
  }

  /** Waits until nothing is under way for a photo in this tab. */
  async settled(photoId: string): Promise<void> {
    await this.#running.get(photoId)?.work;
  }

  /** Goes on after a halt. */
  resume(): void {
    this.#halted = false;
    this.#pump();
  }

  /** The page is being left, perhaps this instant: its runs are not to be taken for deaths. Takes no time. */
  leave(): void {
    this.#options.farewell.leave([...this.#running.values()].map(({ claim }) => claim));
  }

  /** Ends all work; jobs go back to the queue without a mark against them. */
  async stop(): Promise<void> {
    this.#mayMeasure = false;
    const { store, pool, right } = this.#options;
    const claims = [...this.#running].map(([photoId, { claim }]) => ({ photoId, claim }));
    const released = store.jobs.release(claims);
    for (const { abort } of this.#running.values()) abort.abort();
    pool.stop();
    await released;
    right.release();
  }

  #pump(): void {
    const { pool } = this.#options;
    while (this.#mayMeasure && !this.#halted && !this.#overview.paused && pool.free > this.#claiming) {
      const photoId = chooseNextJob(
        this.#overview.jobs.values(),
        new Set(this.#running.keys()),
        this.#refused,
        this.#openPhotoId,
      );
      if (photoId === null) return;
      const running: Running = {
        claim: this.#options.newId(),
        abort: new AbortController(),
        work: Promise.resolve(),
        seen: false,
      };
      this.#running.set(photoId, running);
      running.work = this.#work(photoId, running)
        .catch((error: Error) =>
          this.#halt({ code: 'storage', problem: { code: 'write-failed', detail: error.message } }),
        )
        .finally(() => {
          this.#running.delete(photoId);
          this.#pump();
        });
    }
  }

  /** Jobs taken that have no worker yet. */
  #claiming = 0;

  async #work(photoId: string, { claim, abort }: Running): Promise<void> {
    const { store, pool } = this.#options;
    this.#claiming += 1;
    let run: ReturnType<WorkerPool['run']>;
    let modelSetAside = false;
    let keeping: Promise<void> | null = null;
    // the photo on screen shows at once what was found; the others' findings are kept with their figures
    const keepCheck = (checked: CheckedPhoto) => {
      if (photoId === this.#openPhotoId) keeping ??= this.#keepCheck(photoId, claim, checked);
    };
    try {
      const claimed = await store.jobs.claim(photoId, claim);
      if (!this.#haltUnlessWritten(claimed)) return;
      if (claimed.value === null) {
        this.#refused.add(photoId);
        return;
      }
      const { bytes, hasThumbnail } = await store.photos.toMeasure(photoId);
      if (bytes === null) {
        this.#haltUnlessWritten(await store.jobs.fail(photoId, claim, { code: 'photo-bytes-missing' }, null));
        return;
      }
      const thumbnailPx = hasThumbnail ? 0 : THUMBNAIL_PX;
      const wantMask = photoId === this.#openPhotoId;
      const { settings, find, taught, photo } = claimed.value;
      modelSetAside = claimed.value.modelSetAside;
      const { sha256: photoSha256 } = photo;
      const job = { jobId: claim, bytes, settings, find, photoSha256, taught, thumbnailPx, wantMask };
      run = pool.run(job, abort.signal, keepCheck);
    } finally {
      this.#claiming -= 1;
    }
    const outcome = await run.outcome;
    const keptBefore = keeping !== null;
    // messages of two ports may overtake each other: findings told from now on are those of the outcome
    keeping ??= Promise.resolve();
    await keeping;
    const figureId = await this.#conclude(photoId, claim, outcome, { modelSetAside, keptBefore });
    const mask = await run.mask;
    // a cache, made again when it is asked for; where it does not fit, nothing else is tried either
    if (figureId && mask) {
      const encoding = 'label-runs deflate-raw';
      this.#haltUnlessWritten(await store.photos.saveAutomaticMask({ photoId, figureId, encoding, ...mask }));
    }
  }

  async #keepCheck(photoId: string, claim: string, { check, area }: CheckedPhoto): Promise<void> {
    const { store, softwareVersion } = this.#options;
    this.#haltUnlessWritten(await store.checks.keep(photoId, claim, { check, area, softwareVersion }));
  }

  /** Stores how a run ended. @returns id of the figure, if there is one */
  async #conclude(
    photoId: string,
    claim: string,
    outcome: RunOutcome,
    { modelSetAside, keptBefore }: { readonly modelSetAside: boolean; readonly keptBefore: boolean },
  ): Promise<string | null> {
    const { store, softwareVersion, onMask, pool } = this.#options;
    const besideOf = ({ thumbnail, checked }: Extract<RunOutcome, { checked: unknown }>) => ({
      thumbnail,
      check: keptBefore || !checked ? null : { ...checked, softwareVersion },
    });
    switch (outcome.state) {
      case 'done': {
        const { settings, ...measured } = outcome.measurement;
        const verdict = await pool.decoder();
        const figure = {
          ...measured,
          settings,
          ...(modelSetAside && { flags: [...measured.flags, 'model-of-other-classes' as const] }),
          method: 'automatic' as const,
          softwareVersion,
          decoder: `browser ${verdict?.state ?? 'unknown'}`,
        };
        const beside = besideOf(outcome);
        const written = await store.jobs.finish(photoId, claim, outcome.facts, figure, beside);
        if (!this.#haltUnlessWritten(written) || written.value === null) return null;
        if (outcome.mask) onMask(written.value, outcome.mask);
        return written.value;
      }
      case 'failed': {
        const { problem, facts } = outcome;
        this.#haltUnlessWritten(await store.jobs.fail(photoId, claim, problem, facts, besideOf(outcome)));
        return null;
      }
      case 'unexpected': {
        const { name, message } = outcome;
        const problem = { code: 'unexpected', name, message } as const;
        this.#haltUnlessWritten(await store.jobs.fail(photoId, claim, problem, null));
        return null;
      }
      case 'died':
        this.#haltUnlessWritten(await store.jobs.died(photoId, claim));
        return null;
      case 'not-started':
        // first, so that the job is not taken again as soon as it is back
        this.#halt({ code: 'no-workers', detail: outcome.detail });
        this.#haltUnlessWritten(await store.jobs.release([{ photoId, claim }]));
        return null;
      case 'cancelled':
        // whoever cancelled has changed the job already; where nobody has, it waits again
        this.#haltUnlessWritten(await store.jobs.release([{ photoId, claim }]));
        return null;
    }
  }

  #halt(halt: Halt): void {
    this.#halted = true;
    this.#options.onHalt(halt);
  }

  #haltUnlessWritten<T>(written: Written<T>): written is Extract<Written<T>, { written: true }> {
    if (!written.written) this.#halt({ code: 'storage', problem: written.problem });
    return written.written;
  }
}
