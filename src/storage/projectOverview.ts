import { groupBy } from '../core/trial/groupBy.ts';
import { checkOf } from './checkStore.ts';
import { type CoverDefinition, definitionFor } from './coverDefinition.ts';
import { classIdsOf, measureSettingsOf, sameDefinition, sameMeasureSettings } from './measureSettingsOf.ts';
import type { Figure, PhotoSummary } from './photoSummary.ts';
import type {
  FigureRecord,
  JobRecord,
  PhotoCheckRecord,
  PhotoRecord,
  PhotoSettingsRecord,
} from './records/photoRecords.ts';
import type { TrialRecord } from './records/trialRecords.ts';
import type { CheckedTables, StoreChange, StoreContext } from './storeContext.ts';

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

const TABLES_READ = [
  'photos',
  'photoSettings',
  'photoChecks',
  'figures',
  'jobs',
  'settings',
  'trials',
  'models',
] as const;

/**
 * The overview, kept up to date: read whole once, then only what changed. Changes that come while one is being read
 * are read together in the next round, so that a burst of them costs two rounds and not one each.
 */
export class ProjectOverview {
  readonly #context: StoreContext;
  readonly #onNew: (overview: Overview) => void;
  readonly #onError: (error: unknown) => void;
  readonly #entries = new Map<string, Entry>();
  /** Classes by model; what a model is never changes. */
  readonly #modelClassIds = new Map<string, readonly string[]>();
  #trials: readonly TrialRecord[] = [];
  /** By the trial that a photo names: worked out once, so that classes are the same object for all its photos. */
  readonly #definitions = new Map<string | null, CoverDefinition>();
  #paused = false;
  #changedIds = new Set<string>();
  #pausedMayHaveChanged = false;
  #trialsMayHaveChanged = false;
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
      this.#setTrials(await tables.trials.all());
      await this.#learnModels(tables, [...settings.values()]);
      this.#entries.clear();
      for (const photo of photos.sort(byTimeAdded)) {
        const { id } = photo;
        const [check, job] = [checks.get(id), jobs.get(id)];
        this.#set({ photo, settings: settings.get(id), check, figures: figures.get(id) ?? [], job });
      }
    });
  }

  /** To be called with every change of the store, of this tab or another. */
  readonly update = ({ photoIds, settings, trialIds = [] }: StoreChange): void => {
    for (const id of photoIds) this.#changedIds.add(id);
    if (settings.includes('measuring-paused')) this.#pausedMayHaveChanged = true;
    if (trialIds.length > 0) this.#trialsMayHaveChanged = true;
    if (!this.#reading) this.#readChanged().catch(this.#onError);
  };

  stop(): void {
    this.#stopped = true;
  }

  async #readChanged(): Promise<void> {
    this.#reading = true;
    try {
      while (this.#mayHaveChanged && !this.#stopped) {
        await this.#readRound();
        this.#publish();
      }
    } finally {
      this.#reading = false;
    }
  }

  get #mayHaveChanged(): boolean {
    return this.#changedIds.size > 0 || this.#pausedMayHaveChanged || this.#trialsMayHaveChanged;
  }

  async #readRound(): Promise<void> {
    const ids = [...this.#changedIds];
    this.#changedIds = new Set();
    this.#pausedMayHaveChanged = false;
    const trialsMayHaveChanged = this.#trialsMayHaveChanged;
    this.#trialsMayHaveChanged = false;
    if (ids.length > MANY) return this.#readAll();
    await this.#context.read(TABLES_READ, async (tables) => {
      const paused = (await tables.settings.get('measuring-paused'))?.value === true;
      const photos = await tables.photos.getMany(ids);
      const settings = await tables.photoSettings.getMany(ids);
      const checks = await tables.photoChecks.getMany(ids);
      const jobs = await tables.jobs.getMany(ids);
      const trials = trialsMayHaveChanged ? await tables.trials.all() : this.#trials;
      const defineOtherwise = this.#setTrials(trials);
      await this.#learnModels(tables, settings);
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
      if (paused !== this.#paused || defineOtherwise) {
        this.#paused = paused;
        for (const entry of [...this.#entries.values()]) this.#set(entry);
      }
    });
  }

  #set(parts: Omit<Entry, 'summary'>): void {
    const { photo, settings } = parts;
    const definition = this.#definitionOf(photo.trialId);
    const modelClassIds = this.#modelClassIds.get(settings?.modelId ?? '');
    const summary = summaryOf(parts, definition, modelClassIds, this.#paused);
    this.#entries.set(photo.id, { ...parts, summary });
  }

  /** @returns whether they say otherwise than before what cover is */
  #setTrials(trials: readonly TrialRecord[]): boolean {
    const defineOtherwise = definitionsOf(trials) !== definitionsOf(this.#trials);
    this.#trials = trials;
    if (defineOtherwise) this.#definitions.clear();
    return defineOtherwise;
  }

  #definitionOf(trialId: string | null): CoverDefinition {
    const known = this.#definitions.get(trialId) ?? definitionFor(trialId, this.#trials);
    this.#definitions.set(trialId, known);
    return known;
  }

  async #learnModels(
    { models }: CheckedTables<'models'>,
    settings: readonly (PhotoSettingsRecord | undefined)[],
  ): Promise<void> {
    const wanted = new Set(settings.flatMap((one) => one?.modelId ?? []));
    const unknown = [...wanted].filter((id) => !this.#modelClassIds.has(id));
    for (const model of await models.getMany(unknown)) {
      if (model) this.#modelClassIds.set(model.id, classIdsOf(model));
    }
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

/** What trials say of cover, and of nothing else: scores and dates change more often. */
const definitionsOf = (trials: readonly TrialRecord[]): string =>
  JSON.stringify(trials.map(({ id, plan }) => [id, plan.trial?.classes, plan.trial?.gapRule]));

function summaryOf(
  parts: Omit<Entry, 'summary'>,
  definition: CoverDefinition,
  modelClassIds: readonly string[] | undefined,
  paused: boolean,
): PhotoSummary {
  const { photo, settings: stored, figures: current, job } = parts;
  const check = parts.check ? checkOf(parts.check) : null;
  const { id, name, plot, place, ratingDate, namedBy, takenAt, widthPx, heightPx } = photo;
  const { settings, modelSetAside } = measureSettingsOf(stored, definition, modelClassIds);
  const figures = Object.fromEntries(current.map((record) => [record.method, asFigure(record, definition)]));
  const figure = figures.automatic ?? null;
  return {
    id,
    name,
    plot,
    place,
    ratingDate,
    replaced: photo.replaced ?? null,
    exported: photo.exportedAt !== undefined,
    namedBy,
    takenAt,
    camera: photo.camera ?? null,
    labelTexts: photo.label?.texts ?? null,
    widthPx,
    heightPx,
    frame: settings.frame,
    frameBy: stored?.frameBy ?? null,
    offeredFrame: !settings.frame && !stored?.frameBy && check?.frame?.found ? check.frame.corners : null,
    verdict: check?.quality.verdict ?? null,
    classes: definition.classes,
    gapRule: definition.gapRule,
    modelId: settings.modelId ?? null,
    modelSetAside,
    figure,
    figures,
    work: workOf(job, paused),
    problem: job?.state === 'failed' ? job.problem : null,
    stale: figure !== null && !sameMeasureSettings(figure.settings, settings),
    definitionChanged: figure !== null && !sameDefinition(figure.settings, settings),
  };
}

function workOf(job: JobRecord | undefined, paused: boolean): PhotoSummary['work'] {
  if (!job || job.state === 'done') return null;
  return job.state === 'waiting' && paused ? 'paused' : job.state;
}

/** The figure as screens see it: without what only the store needs, its classes called as the trial calls them now. */
function asFigure(record: FigureRecord, { classes }: CoverDefinition): Figure {
  const { photoId: _photoId, current: _current, measuredBy: _by, ...figure } = record;
  const { settings } = figure;
  const named = settings.classes.map((own) => {
    const now = classes.find(({ id }) => id === own.id);
    return now ? { ...now, startRole: own.startRole } : own;
  });
  return { ...figure, settings: { ...settings, classes: named } };
}
