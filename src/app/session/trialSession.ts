import { readTrialPlan, type TrialPlanProblem } from '../../core/exchange/trialPlan.ts';
import { auditEntries } from '../../core/trial/audit.ts';
import { checkRecord } from '../../core/trial/checkRecord.ts';
import { DEFAULT_FILE_NAME_PATTERNS } from '../../core/trial/fileNamePattern.ts';
import type { Score } from '../../core/trial/rating.ts';
import { type TrialPlan, trialPlanSchema } from '../../core/trial/trialPlan.ts';
import { THERE_AND_BACK_BY_ROW } from '../../core/trial/walkingOrder.ts';
import type { WeatherDay } from '../../core/trial/weather.ts';
import type { PhotoSummary } from '../../storage/photoSummary.ts';
import type { ProjectStore } from '../../storage/projectStore.ts';
import type { PhotoRules } from '../../storage/records/trialRecords.ts';
import type { Written } from '../../storage/storageProblem.ts';
import type { StoredTrial, TrialChange, TrialContent } from '../../storage/trialStore.ts';
import type { LabelWorker } from '../measuring/labelWorker.ts';
import { type Observable, ObservableValue } from './observable.ts';
import type { TrialPhotosState } from './placePhotos.ts';
import type { LabelsState } from './trialLabels.ts';
import { TrialPhotos } from './trialPhotos.ts';
import type { EditResult, OpenTrial, Signature, TrialState } from './trialState.ts';

export type { TrialChange } from '../../storage/trialStore.ts';

export interface TrialSessionParts {
  readonly store: ProjectStore;
  readonly photos: Observable<readonly PhotoSummary[]>;
  readonly now: () => Date;
  readonly startLabelWorker: () => LabelWorker;
  /** Says what became of a write. */
  readonly settle: (written: Written<unknown>) => void;
  readonly onError: (error: unknown) => void;
}

const DEFAULT_PHOTO_RULES: PhotoRules = {
  fileNamePatterns: [...DEFAULT_FILE_NAME_PATTERNS],
  walk: { ...THERE_AND_BACK_BY_ROW },
  orderTrusted: false,
};

/**
 * Planning one trial: reads it, changes it with every change in the audit, and keeps photos at their plots. A part of the
 * page of its own, since the schemas of a plan are not needed before there is one.
 */
export class TrialSession {
  readonly trial = new ObservableValue<TrialState>({ state: 'none' });
  readonly #parts: TrialSessionParts;
  readonly #photos: TrialPhotos;
  readonly #stops: (() => void)[];
  #reading: Promise<void> | null = null;
  #readAgain = false;

  constructor(parts: TrialSessionParts) {
    this.#parts = parts;
    this.#photos = new TrialPhotos({ ...parts, trial: this.trial });
    this.#stops = [
      parts.store.observeTrials(() => void this.load().catch(parts.onError)),
      () => this.#photos.stop(),
    ];
  }

  /** Where each photo belongs, with reasons. */
  get photos(): Observable<TrialPhotosState> {
    return this.#photos.state;
  }

  /** How far photos have been looked at for labels. */
  get labels(): Observable<LabelsState> {
    return this.#photos.labels.state;
  }

  /** Reads the trial; called again while reading, it reads once more. */
  load(): Promise<void> {
    if (this.#reading) {
      this.#readAgain = true;
      return this.#reading;
    }
    this.#reading = this.#read().finally(() => {
      this.#reading = null;
    });
    return this.#reading;
  }

  async #read(): Promise<void> {
    do {
      this.#readAgain = false;
      const [first] = await this.#parts.store.trials.all();
      const stored = first ? await this.#parts.store.trials.open(first.id) : null;
      this.trial.set(stored ? stateOf(stored) : { state: 'none' });
    } while (this.#readAgain);
  }

  /** Starts a trial. */
  async create(plan: TrialPlan, who: string): Promise<EditResult> {
    const checked = checkRecord(trialPlanSchema, plan);
    if (!checked.ok) return checked;
    const content = { plan: checked.value, photoRules: DEFAULT_PHOTO_RULES };
    return this.#done(await this.#parts.store.trials.create(content, who));
  }

  /** Starts a trial from a plan file. */
  async createFromFile(
    text: string,
    who: string,
  ): Promise<{ readonly ok: true } | { readonly ok: false; readonly problems: readonly TrialPlanProblem[] }> {
    const read = readTrialPlan(text);
    if (!read.ok) return read;
    const created = await this.create(read.value, who);
    if (created.ok) return created;
    return { ok: false, problems: created.problems.map((problem) => ({ code: 'plan-field', problem })) };
  }

  /**
   * Changes the plan. What the schema refuses is not stored; what merely contradicts is, and is shown.
   *
   * @param edit applied to the plan on screen to see whether it may be, and to the plan as stored then
   */
  async edit(edit: (plan: TrialPlan) => TrialPlan, signature: Signature): Promise<EditResult> {
    const trial = this.#open();
    const checked = checkRecord(trialPlanSchema, edit(trial.plan));
    if (!checked.ok) return checked;
    return this.#change(trial.id, (before) => ({ ...before, plan: edit(before.plan) }), signature);
  }

  /** Changes how photos find their plots. */
  editPhotoRules(edit: (rules: PhotoRules) => PhotoRules, signature: Signature): Promise<EditResult> {
    const { id } = this.#open();
    return this.#change(id, (before) => ({ ...before, photoRules: edit(before.photoRules) }), signature);
  }

  async #change(
    id: string,
    edit: (before: TrialContent) => TrialContent,
    { who, why }: Signature,
  ): Promise<EditResult> {
    const when = this.#parts.now().toISOString();
    const changing = this.#parts.store.trials.change(id, ({ plan, photoRules }) => {
      const after = edit({ plan, photoRules });
      // the store may have moved on since the screen was drawn: what is kept is checked again
      const checked = trialPlanSchema.parse(after.plan);
      const entries = auditEntries(asJson({ plan, photoRules }), asJson(after), { who, when, why });
      return { plan: checked, photoRules: after.photoRules, entries };
    });
    return this.#done(await changing);
  }

  /** Removes the trial with its scores and weather; photos stay. */
  async remove({ who, why }: Signature): Promise<void> {
    const trial = this.#open();
    await this.#done(await this.#parts.store.trials.remove(trial.id, who, why));
  }

  /**
   * @param score a value of undefined takes it back
   * @param why kept with a score that replaces another
   */
  async score(
    score: Omit<Score, 'value' | 'rater'> & {
      readonly rater: string;
      readonly value: number | null | undefined;
    },
    why: string,
  ): Promise<void> {
    await this.#done(await this.#parts.store.trials.score({ trialId: this.#open().id, ...score }, why));
  }

  async setWeather(days: readonly WeatherDay[], { who, why }: Signature): Promise<void> {
    await this.#done(await this.#parts.store.trials.setWeather(this.#open().id, days, who, why));
  }

  /** Every change of the trial and of the places of photos, the newest first; photos by their file names. */
  async changes(): Promise<readonly TrialChange[]> {
    const { trials, photos } = this.#parts.store;
    const names = new Map(this.#parts.photos.get().map(({ id, name }) => [id, name]));
    const ofPhotos = (await photos.changes()).map((entry): TrialChange => {
      const name = names.get(entry.subjectId) ?? (entry.before as { name?: string } | null)?.name;
      const photo = `photos[${name ?? entry.subjectId}]`;
      return { ...entry, field: entry.field === null ? photo : `${photo}.${entry.field}` };
    });
    const entries = [...(await trials.changes(this.#open().id)), ...ofPhotos];
    return entries.sort((a, b) => (a.at < b.at ? 1 : -1));
  }

  /** Says by hand where photos belong; a plot of null puts them to none. */
  async place(
    photos: readonly string[],
    to: { readonly plot: string | null; readonly place?: number | null; readonly ratingDate?: string | null },
    { who, why }: Signature,
  ): Promise<void> {
    for (const id of photos) {
      this.#parts.settle(await this.#parts.store.photos.change(id, { ...to, namedBy: 'person' }, who, why));
    }
  }

  stop(): void {
    for (const stop of this.#stops) stop();
  }

  #open(): OpenTrial {
    const trial = this.trial.get();
    if (trial.state !== 'open') throw new Error(`there is no trial to change: ${trial.state}`);
    return trial;
  }

  /** What was stored is on screen before the caller goes on. */
  async #done(written: Written<unknown>): Promise<EditResult> {
    this.#parts.settle(written);
    await this.load();
    return written.written ? { ok: true } : { ok: false, problems: [] };
  }
}

/** Plan and rules as the audit compares them: what is left out is null there. */
function asJson({ plan, photoRules: { dateOfUndated = null, ...rules } }: TrialContent) {
  return { ...plan, photoRules: { ...rules, dateOfUndated } };
}

function stateOf({ trial, scores, weather }: StoredTrial): TrialState {
  const { id, plan, photoRules } = trial;
  const checked = checkRecord(trialPlanSchema, plan);
  if (!checked.ok) {
    return { state: 'unreadable', problems: checked.problems, stored: JSON.stringify(plan, null, 1) };
  }
  const asScores = scores.map(
    ({ variable, plot, ratingDate, rater, value }): Score => ({
      variable,
      plot,
      ratingDate,
      value,
      rater: rater || null,
    }),
  );
  return { state: 'open', id, plan: checked.value, photoRules, scores: asScores, weather };
}
