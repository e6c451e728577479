import type { ReportComparison, ReportSource } from '../../core/report/reportSource.ts';
import { comparedVariables, variableKey } from '../../core/statistics/declaredAnalysis.ts';
import type { TrialPlan } from '../../core/trial/trialPlan.ts';
import { CURRENT_VERSION } from '../../storage/schemaVersions.ts';
import { comparisonName, openComparison, type TrialComparison } from './comparison.ts';
import { ObservableValue } from './observable.ts';
import { openPoints, type Points } from './points.ts';
import type { OpenPart, PartContext } from './sessionPart.ts';
import { SOFTWARE_VERSION } from './softwareVersion.ts';
import type { TrialSession } from './trialSession.ts';
import type { EditResult, OpenTrial, Signature, TrialState } from './trialState.ts';

export interface ReportState {
  readonly trial: TrialState;
  /** The records as they stand; null before they were read, and without a trial. */
  readonly source: ReportSource | null;
  /** Whether comparisons are still being worked out. */
  readonly working: boolean;
  /** Why comparing stopped. */
  readonly trouble: string | null;
}

/** Changes come in bursts: a comparison tells of every date, a batch of every photo. */
const SETTLE_MS = 150;

/** The part that gathers what a report is made from. */
export const openReport: OpenPart<Reporting> = openReportWith(openComparison);

/** The same with another way to compare. */
export function openReportWith(openCompared: OpenPart<TrialComparison>): OpenPart<Reporting> {
  return async (context) => {
    const trial = await context.openTrial();
    const [comparison, points] = await Promise.all([openCompared(context), openPoints()(context)]);
    const reporting = new Reporting(context, trial, comparison, points);
    await reporting.load();
    return reporting;
  };
}

/** Gathers the records of a trial for its report, and follows their changes. */
export class Reporting {
  readonly state: ObservableValue<ReportState>;
  readonly #context: PartContext;
  readonly #trial: TrialSession;
  readonly #comparison: TrialComparison;
  readonly #points: Points;
  readonly #stops: (() => void)[];
  #timer: ReturnType<typeof setTimeout> | null = null;
  #reading: Promise<void> | null = null;
  #readAgain = false;
  #stopped = false;

  constructor(context: PartContext, trial: TrialSession, comparison: TrialComparison, points: Points) {
    this.#context = context;
    this.#trial = trial;
    this.#comparison = comparison;
    this.#points = points;
    this.state = new ObservableValue<ReportState>({
      trial: trial.trial.get(),
      source: null,
      working: true,
      trouble: null,
    });
    const later = () => this.#later();
    this.#stops = [
      trial.trial.subscribe(later),
      comparison.state.subscribe(later),
      points.state.subscribe(later),
      context.photos.subscribe(later),
      context.store.observeCorrections(later),
    ];
  }

  /** Reads everything; called again while reading, it reads once more. */
  load(): Promise<void> {
    if (this.#reading) {
      this.#readAgain = true;
      return this.#reading;
    }
    this.#reading = (async () => {
      do {
        this.#readAgain = false;
        await this.#read();
      } while (this.#readAgain && !this.#stopped);
    })().finally(() => {
      this.#reading = null;
    });
    return this.#reading;
  }

  /** Writes the objective into the plan. */
  setObjective(objective: string, signature: Signature): Promise<EditResult> {
    return this.#trial.edit(
      (plan) => ({ ...plan, trial: { ...plan.trial, objective: objective.trim() } }),
      signature,
    );
  }

  stop(): void {
    this.#stopped = true;
    if (this.#timer !== null) clearTimeout(this.#timer);
    for (const stop of this.#stops) stop();
    this.#comparison.stop();
    this.#points.stop();
  }

  #later(): void {
    this.#timer ??= setTimeout(() => {
      this.#timer = null;
      this.load().catch(this.#context.fail);
    }, SETTLE_MS);
  }

  async #read(): Promise<void> {
    const trial = this.#trial.trial.get();
    const compared = this.#comparison.state.get();
    const isReady = compared.ready && (trial.state !== 'open' || compared.trial.state === 'open');
    const source = trial.state === 'open' ? await this.#source(trial) : null;
    if (this.#stopped) return;
    this.state.set({
      trial,
      source,
      working: !isReady || (compared.trouble === null && this.#isUnfinished()),
      trouble: compared.trouble,
    });
  }

  async #source(trial: OpenTrial): Promise<ReportSource> {
    const { store, parts } = this.#context;
    const { plan, scores, weather } = trial;
    const { declared, declarations } = this.#comparison.state.get();
    if (declared) {
      this.#comparison.want(reportVariables(plan).map((variable) => ({ variable, plots: 'as-declared' })));
    }
    const photos = this.#context.photos.get();
    const dates = [...new Set(photos.flatMap(({ ratingDate }) => ratingDate ?? []))];
    const [reviews, models, signOffs, counted] = await Promise.all([
      store.reviews.all(),
      store.teaching.models(),
      Promise.all(dates.map((date) => store.reviews.signOffs(date))),
      Promise.all(this.#countedDates().map((date) => this.#points.counted(date))),
    ]);
    return {
      plan,
      photos,
      scores,
      weather,
      declarations: declarations.map(({ by, at, reason, declared: own }) => ({
        by,
        at,
        reason,
        declared: own,
      })),
      comparisons: this.#comparisons(),
      reviews: [...reviews.values()],
      signOffs: signOffs.flat(),
      counted: counted.flat(),
      models: models.map(({ id, content, agreement }) => ({
        id,
        photos: Array.isArray(content.photos) ? content.photos.length : 0,
        agreement: agreement ?? null,
      })),
      softwareVersion: SOFTWARE_VERSION,
      databaseVersion: CURRENT_VERSION,
      madeAt: parts.now().toISOString(),
    };
  }

  /** Rating dates whose photos have points. */
  #countedDates(): (string | null)[] {
    const withPoints = new Set(this.#points.state.get().sets.map(({ photoId }) => photoId));
    const photos = this.#context.photos.get().filter(({ id }) => withPoints.has(id));
    return [...new Set(photos.map(({ ratingDate }) => ratingDate))];
  }

  /** Comparisons as declared, the declared variable first. */
  #comparisons(): ReportComparison[] {
    const { trial, declared, comparisons } = this.#comparison.state.get();
    if (trial.state !== 'open' || !declared) return [];
    const first = variableKey(declared.variable);
    const others = reportVariables(trial.plan).filter((variable) => variableKey(variable) !== first);
    return [declared.variable, ...others].flatMap(
      (variable) => comparisons.get(comparisonName(variable, 'as-declared')) ?? [],
    );
  }

  #isUnfinished(): boolean {
    const { trial, declared, working } = this.#comparison.state.get();
    if (trial.state !== 'open' || !declared) return false;
    const begun = this.#comparisons();
    return (
      working ||
      begun.length < reportVariables(trial.plan).length ||
      begun.some(({ dates, byDate, overDates }) => byDate.size < dates.length || overDates === undefined)
    );
  }
}

/** Colour is compared within one date and one light only: it is no part of a report. */
const reportVariables = (plan: TrialPlan) => comparedVariables(plan).filter(({ kind }) => kind !== 'colour');
