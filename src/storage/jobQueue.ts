import type { CoverModel } from '../core/classifier/coverModel.ts';
import type { MeasureSettings, NamedModel } from '../core/cover/measurePhoto.ts';
import type { FindRequest } from '../core/quality/checkPhoto.ts';
import { type NewCheck, putCheck } from './checkStore.ts';
import { type NewFigure, putFigure } from './figureStore.ts';
import { findRequestOf } from './findRequestOf.ts';
import { sameMeasureSettings, settledMeasuring } from './measureSettingsOf.ts';
import type { FigureProblem } from './photoSummary.ts';
import type { FigureRecord, JobRecord, PhotoRecord, ThumbnailRecord } from './records/photoRecords.ts';
import type { Written } from './storageProblem.ts';
import type { CheckedTable, CheckedTables, StoreContext } from './storeContext.ts';

/** A photo over which worker or page died this often is set aside until somebody asks for it again. */
export const MOST_DEATHS = 2;

/** A job that this tab may now work on. */
export interface ClaimedJob {
  readonly photo: PhotoRecord;
  readonly settings: MeasureSettings;
  readonly find: FindRequest;
  /** The model the settings name; null for the start model. */
  readonly taught: NamedModel | null;
  /** The model the photo should be measured with was taught on other classes. */
  readonly modelSetAside: boolean;
  readonly deaths: number;
}

/** What decoding told about a photo. */
export interface DecodedFacts {
  readonly widthPx: number;
  readonly heightPx: number;
  /** Local time as the camera wrote it; null where the file has none. */
  readonly takenAt: string | null;
}

const TABLES_OF_END = ['photos', 'figures', 'jobs', 'thumbnails', 'photoChecks', 'photoSettings'] as const;

/** What a run found beside the figure; kept with how it ended, in one transaction. */
export interface FoundBeside {
  readonly thumbnail?: Omit<ThumbnailRecord, 'photoId'> | null;
  /** Null where it was kept before. */
  readonly check?: NewCheck | null;
}

/**
 * The photos to be measured, one job a photo. A job is worked on under a claim; a result under a claim that no longer
 * holds (the job was cancelled, asked for again, or taken over by another tab) is late and changes nothing.
 */
export class JobQueue {
  readonly #context: StoreContext;

  constructor(context: StoreContext) {
    this.#context = context;
  }

  /** Asks for photos to be measured (again), with a clean record. Photos that are not there are passed over. */
  enqueue(photoIds: readonly string[]): Promise<Written<void>> {
    return this.#context.write(
      ['photos', 'jobs'],
      async ({ photos, jobs }) => {
        const there = await photos.getMany(photoIds);
        const ids = photoIds.filter((_, index) => there[index] !== undefined);
        await putWaiting(jobs, ids, this.#context.now());
      },
      () => ({ photoIds }),
    );
  }

  /** Takes a waiting job; null where it is no longer waiting. */
  claim(photoId: string, claim: string): Promise<Written<ClaimedJob | null>> {
    return this.#context.write(
      ['photos', 'photoSettings', 'models', 'jobs', 'settings', 'trials'],
      async ({ photos, jobs, ...others }) => {
        const { photoSettings, models } = others;
        const job = await jobs.get(photoId);
        const photo = await photos.get(photoId);
        if (job?.state !== 'waiting' || !photo) return null;
        await jobs.put({ ...job, state: 'running', claim });
        const settled = await photoSettings.get(photoId);
        const { settings, modelSetAside } = await settledMeasuring(photo, others);
        const find = await findRequestOf(photo, settled, others);
        const stored = settings.modelId === undefined ? undefined : await models.get(settings.modelId);
        // checked when it was taught or read from a file; its id is the hash of its content
        const taught = stored && { id: stored.id, model: stored.content as unknown as CoverModel };
        return { photo, settings, find, taught: taught ?? null, modelSetAside, deaths: job.deaths };
      },
      (claimed) => ({ photoIds: claimed ? [photoId] : [] }),
    );
  }

  /**
   * Stores the figure. One that says the same as the current one of its method is not stored again: that happens when
   * a photo is measured anew only to have its mask back.
   *
   * @returns the id of the figure, or null where the result came late
   */
  finish(
    photoId: string,
    claim: string,
    facts: DecodedFacts,
    figure: NewFigure,
    beside: FoundBeside = {},
  ): Promise<Written<string | null>> {
    return this.#conclude(photoId, claim, async (tables, job, photo) => {
      await this.#putBeside(tables, photoId, beside);
      await tables.photos.put(withFacts(photo, facts));
      await tables.jobs.put({ ...job, state: 'done', claim: null, problem: null });
      const stored = await tables.figures.where('photoId', photoId);
      const before = stored.find(({ current, method }) => current === 1 && method === figure.method);
      if (before && saysTheSame(before, figure)) return before.id;
      return putFigure(tables.figures, photo, figure, {
        id: this.#context.newId(),
        measuredAt: this.#context.now(),
        measuredBy: null,
        correctionsSha256: null,
      });
    });
  }

  /** @returns false where the result came late */
  async fail(
    photoId: string,
    claim: string,
    problem: FigureProblem,
    facts: DecodedFacts | null,
    beside: FoundBeside = {},
  ): Promise<Written<boolean | null>> {
    return this.#conclude(photoId, claim, async (tables, job, photo) => {
      await this.#putBeside(tables, photoId, beside);
      if (facts) await tables.photos.put(withFacts(photo, facts));
      await tables.jobs.put({ ...job, state: 'failed', claim: null, problem });
      return true;
    });
  }

  /** The worker died over this photo: it waits again, or is set aside after `MOST_DEATHS`. */
  died(photoId: string, claim: string): Promise<Written<boolean | null>> {
    return this.#conclude(photoId, claim, async ({ jobs }, job) => {
      await jobs.put(afterDeath(job));
      return true;
    });
  }

  /** Puts jobs back that were stopped through no fault of theirs, e.g. because the page closes. */
  release(
    claims: readonly { readonly photoId: string; readonly claim: string }[],
  ): Promise<Written<string[]>> {
    return this.#context.write(
      ['jobs'],
      async ({ jobs }) => {
        const released: string[] = [];
        for (const { photoId, claim } of claims) {
          const job = await jobs.get(photoId);
          if (job?.state !== 'running' || job.claim !== claim) continue;
          await jobs.put(putBack(job));
          released.push(photoId);
        }
        return released;
      },
      (photoIds) => ({ photoIds }),
    );
  }

  /**
   * Finds the jobs that were running when a page died: they wait again, or are set aside after `MOST_DEATHS`.
   * Only for the one tab that holds the right to measure.
   *
   * @param ours claims of runs that are alive
   * @param leftInOrder claims of runs whose page was left and did not die: they wait again without a mark
   */
  recover(ours: ReadonlySet<string>, leftInOrder: ReadonlySet<string>): Promise<Written<string[]>> {
    return this.#rewrite((job) => {
      const { state, claim } = job;
      if (state !== 'running' || (claim !== null && ours.has(claim))) return job;
      return claim !== null && leftInOrder.has(claim) ? putBack(job) : afterDeath(job);
    });
  }

  /** Forgets everything that waits or runs. Figures stay. */
  cancelAll(): Promise<Written<string[]>> {
    return this.#rewrite((job) => (job.state === 'waiting' || job.state === 'running' ? null : job));
  }

  async #putBeside(
    tables: CheckedTables<(typeof TABLES_OF_END)[number]>,
    photoId: string,
    { thumbnail, check }: FoundBeside,
  ): Promise<void> {
    if (thumbnail) await tables.thumbnails.put({ photoId, ...thumbnail });
    if (check) await putCheck(tables, photoId, check, this.#context.now());
  }

  #conclude<T>(
    photoId: string,
    claim: string,
    work: (
      tables: CheckedTables<(typeof TABLES_OF_END)[number]>,
      job: JobRecord,
      photo: PhotoRecord,
    ) => Promise<T>,
  ): Promise<Written<T | null>> {
    return this.#context.write(
      TABLES_OF_END,
      async (tables) => {
        const job = await tables.jobs.get(photoId);
        const photo = await tables.photos.get(photoId);
        if (job?.state !== 'running' || job.claim !== claim || !photo) return null;
        return work(tables, job, photo);
      },
      (value) => ({ photoIds: value === null ? [] : [photoId] }),
    );
  }

  /** Runs `next` over all jobs; null removes one, the same object leaves it alone. @returns ids of what changed */
  #rewrite(next: (job: JobRecord) => JobRecord | null): Promise<Written<string[]>> {
    return this.#context.write(
      ['jobs'],
      async ({ jobs }) => {
        const changed: string[] = [];
        for (const job of await jobs.all()) {
          const wanted = next(job);
          if (wanted === job) continue;
          changed.push(job.photoId);
          await (wanted ? jobs.put(wanted) : jobs.delete(job.photoId));
        }
        return changed;
      },
      (photoIds) => ({ photoIds }),
    );
  }
}

/**
 * Puts jobs into the batch that is under way, or into another one. Part of a larger transaction.
 *
 * @param nextBatch names the batch where none is under way
 */
export async function putWaiting(
  jobs: CheckedTable<'jobs'>,
  photoIds: readonly string[],
  now: string,
  nextBatch = now,
): Promise<void> {
  const active = (await jobs.first('state', 'waiting')) ?? (await jobs.first('state', 'running'));
  const batch = active?.batch ?? nextBatch;
  for (const photoId of photoIds) {
    await jobs.put({
      photoId,
      state: 'waiting',
      batch,
      requestedAt: now,
      deaths: 0,
      claim: null,
      problem: null,
    });
  }
}

const saysTheSame = (a: FigureRecord, b: NewFigure): boolean =>
  sameMeasureSettings(a.settings, b.settings) &&
  JSON.stringify(contentOf(a)) === JSON.stringify(contentOf(b));

const contentOf = ({
  cover,
  turfColour = null,
  flags,
  measuredPixels,
  modelId,
  softwareVersion,
  decoder,
}: Omit<NewFigure, 'method'>) => [
  cover.map(({ classId, pixels, coverFraction }) => [classId, pixels, coverFraction]),
  turfColour,
  flags,
  measuredPixels,
  modelId,
  softwareVersion,
  decoder,
];

const putBack = (job: JobRecord): JobRecord => ({ ...job, state: 'waiting', claim: null });

function afterDeath(job: JobRecord): JobRecord {
  const deaths = job.deaths + 1;
  if (deaths < MOST_DEATHS) return { ...putBack(job), deaths };
  const problem: FigureProblem = { code: 'worker-died', attempts: deaths };
  return { ...job, state: 'failed', claim: null, deaths, problem };
}

/** Facts from the pixels and from the camera; the camera's day names the photo only where nothing else does. */
function withFacts(photo: PhotoRecord, { widthPx, heightPx, takenAt }: DecodedFacts): PhotoRecord {
  const known = { ...photo, widthPx, heightPx, takenAt: takenAt ?? photo.takenAt };
  const day = takenAt?.slice(0, 10);
  return photo.ratingDate === null && photo.namedBy === null && day
    ? { ...known, ratingDate: day, namedBy: 'exif' }
    : known;
}
