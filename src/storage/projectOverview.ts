import { groupBy } from '../core/trial/groupBy.ts';
import { checkOf } from './checkStore.ts';
import { measureSettingsOf, sameMeasureSettings } from './measureSettingsOf.ts';
import type { Figure, PhotoSummary } from './photoSummary.ts';
import type {
  FigureRecord,
  JobRecord,
  PhotoCheckRecord,
  PhotoRecord,
  PhotoSettingsRecord,
} from './records/photoRecords.ts';
import type { StoreChange, StoreContext } from './storeContext.ts';

/** All photos in small, with the state of their measuring. */
export interface Overview {
  /** In the order they were added. */
  readonly photos: readonly PhotoSummary[];
  /** Jobs by photo id. */
  readonly jobs: ReadonlyMap<string, JobRecord>;
  readonly paused: boolean;
}

/** What one photo's row is made of. */
interface Entry {
  readonly photo: PhotoRecord;
  readonly settings: PhotoSettingsRecord | undefined;
  readonly check: PhotoCheckRecord | undefined;
  /** Current ones, one a method. */
  readonly figures: readonly FigureRecord[];
  readonly job: JobRecord | undefined;
  readonly summary: PhotoSummary;
}

/** Above this many changed photos it is quicker to read all of them. */
const MANY = 200;

const TABLES_READ = ['photos', 'photoSettings', 'photoChecks', 'figures', 'jobs', 'settings'] as const;

/**
 * The overview, kept up to date: read whole once, then only what changed. Changes that come while one is being read
 * are read together in the next round, so that a burst of them costs two rounds and not one each.
 */
export class ProjectOverview {
  readonly #context: StoreContext;
  readonly #onNew: (overview: Overview) => void;
  readonly #onError: (error: unknown) => void;
  readonly #entries = new Map<string, Entry>();
  #paused = false;
  #changedIds = new Set<string>();
  #pausedMayHaveChanged = false;
  #reading = false;
  #stopped = false;

  constructor(context: StoreContext, onNew: (overview: Overview) => void, onError: (error: unknown) => void) {
    this.#context = context;
    this.#onNew = onNew;
    this.#onError = onError;
  }

  async load(): Promise<void> {
    this.#reading = true;
    try {
      await this.#readAll();
    } finally {
      this.#reading = false;
    }
    this.#publish();
    // what changed while it was read
    this.update({ photoIds: [], settings: [] });
  }

  async #readAll(): Promise<void> {
    await this.#context.read(TABLES_READ, async (tables) => {
      const photos = await tables.photos.all();
      const settings = new Map((await tables.photoSettings.all()).map((one) => [one.photoId, one]));
      const checks = new Map((await tables.photoChecks.all()).map((one) => [one.photoId, one]));
      const figures = groupBy(await tables.figures.where('current', 1), ({ photoId }) => photoId);
      const jobs = new Map((await tables.jobs.all()).map((one) => [one.photoId, one]));
      this.#paused = (await tables.settings.get('measuring-paused'))?.value === true;
      this.#entries.clear();
      for (const photo of photos.sort(byTimeAdded)) {
        const { id } = photo;
        const [check, job] = [checks.get(id), jobs.get(id)];
        this.#set({ photo, settings: settings.get(id), check, figures: figures.get(id) ?? [], job });
      }
    });
  }

  /** To be called with every change of the store, of this tab or another. */
  readonly update = ({ photoIds, settings }: StoreChange): void => {
    for (const id of photoIds) this.#changedIds.add(id);
    if (settings.includes('measuring-paused')) this.#pausedMayHaveChanged = true;
    if (!this.#reading) this.#readChanged().catch(this.#onError);
  };

  stop(): void {
    this.#stopped = true;
  }

  async #readChanged(): Promise<void> {
    this.#reading = true;
    try {
      while ((this.#changedIds.size > 0 || this.#pausedMayHaveChanged) && !this.#stopped) {
        await this.#readRound();
        this.#publish();
      }
    } finally {
      this.#reading = false;
    }
  }

  async #readRound(): Promise<void> {
    const ids = [...this.#changedIds];
    this.#changedIds = new Set();
    this.#pausedMayHaveChanged = false;
    if (ids.length > MANY) return this.#readAll();
    await this.#context.read(TABLES_READ, async (tables) => {
      const paused = (await tables.settings.get('measuring-paused'))?.value === true;
      const photos = await tables.photos.getMany(ids);
      const settings = await tables.photoSettings.getMany(ids);
      const checks = await tables.photoChecks.getMany(ids);
      const jobs = await tables.jobs.getMany(ids);
      for (const [index, id] of ids.entries()) {
        const photo = photos[index];
        if (!photo) {
          this.#entries.delete(id);
          continue;
        }
        const figures = (await tables.figures.where('photoId', id)).filter(isCurrent);
        const [check, job] = [checks[index], jobs[index]];
        this.#set({ photo, settings: settings[index], check, figures, job });
      }
      if (paused !== this.#paused) {
        this.#paused = paused;
        for (const entry of [...this.#entries.values()]) this.#set(entry);
      }
    });
  }

  #set(parts: Omit<Entry, 'summary'>): void {
    this.#entries.set(parts.photo.id, { ...parts, summary: summaryOf(parts, this.#paused) });
  }

  #publish(): void {
    if (this.#stopped) return;
    const entries = [...this.#entries.values()];
    this.#onNew({
      photos: entries.map(({ summary }) => summary),
      jobs: new Map(entries.flatMap(({ job }) => (job ? [[job.photoId, job] as const] : []))),
      paused: this.#paused,
    });
  }
}

const isCurrent = ({ current }: FigureRecord) => current === 1;

const byTimeAdded = (a: PhotoRecord, b: PhotoRecord) =>
  a.addedAt < b.addedAt ? -1 : a.addedAt > b.addedAt ? 1 : a.name < b.name ? -1 : 1;

function summaryOf(parts: Omit<Entry, 'summary'>, paused: boolean): PhotoSummary {
  const { photo, settings: stored, figures: current, job } = parts;
  const check = parts.check ? checkOf(parts.check) : null;
  const { id, name, plot, place, ratingDate, namedBy, takenAt, widthPx, heightPx } = photo;
  const settings = measureSettingsOf(stored);
  const figures = Object.fromEntries(current.map((record) => [record.method, asFigure(record)]));
  const figure = figures.automatic ?? null;
  return {
    id,
    name,
    plot,
    place,
    ratingDate,
    namedBy,
    takenAt,
    widthPx,
    heightPx,
    frame: settings.frame,
    frameBy: stored?.frameBy ?? null,
    offeredFrame: !settings.frame && !stored?.frameBy && check?.frame?.found ? check.frame.corners : null,
    verdict: check?.quality.verdict ?? null,
    modelId: settings.modelId ?? null,
    figure,
    figures,
    work: workOf(job, paused),
    problem: job?.state === 'failed' ? job.problem : null,
    stale: figure !== null && !sameMeasureSettings(figure.settings, settings),
  };
}

function workOf(job: JobRecord | undefined, paused: boolean): PhotoSummary['work'] {
  if (!job || job.state === 'done') return null;
  return job.state === 'waiting' && paused ? 'paused' : job.state;
}

/** The figure as screens see it: without what only the store needs. */
function asFigure(record: FigureRecord): Figure {
  const { photoId: _photoId, current: _current, measuredBy: _by, ...figure } = record;
  return figure;
}
