import { checkOneMethod, type OneMethodCheck } from '../../core/cover/oneMethod.ts';
import type { CoverMethod } from '../../core/exchange/coverTable.ts';
import { readDeclaredAnalysis, storedDeclaration } from '../../core/exchange/declaredAnalysis.ts';
import {
  type ClassOverDates,
  type ComparisonOptions,
  type DateComparison,
  datesOf,
} from '../../core/statistics/compareTrial.ts';
import {
  type ComparedVariable,
  type DeclaredAnalysis,
  variableKey,
} from '../../core/statistics/declaredAnalysis.ts';
import { declaredOptions, withoutExcluded } from '../../core/statistics/declaredComparison.ts';
import type { PlotResidual } from '../../core/statistics/plotResiduals.ts';
import { type TrialObservations, trialObservations } from '../../core/statistics/trialObservations.ts';
import { type CompareWorker, startCompareWorker } from '../measuring/compareWorker.ts';
import { type Observable, ObservableValue } from './observable.ts';
import type { PhotoSummary } from './session.ts';
import type { OpenPart, PartContext } from './sessionPart.ts';
import type { TrialSession } from './trialSession.ts';
import type { OpenTrial, TrialState } from './trialState.ts';

/** One declaration as it was kept. */
export interface KeptDeclaration {
  readonly id: string;
  readonly by: string;
  /** ISO 8601 instant. */
  readonly at: string;
  readonly reason: string | null;
  /** Null where it is not one that this program can read. */
  readonly declared: DeclaredAnalysis | null;
}

/** Which plots a comparison is of. */
export type PlotsCompared = 'as-declared' | 'all';

/** The comparison of one variable, as far as it got. */
export interface VariableComparison {
  readonly variable: ComparedVariable;
  readonly plots: PlotsCompared;
  readonly observations: TrialObservations;
  readonly options: ComparisonOptions;
  /** Rating dates with a value, in order. */
  readonly dates: readonly string[];
  readonly byDate: ReadonlyMap<string, DateComparison>;
  /** Null with one date; undefined until it is there. */
  readonly overDates: ClassOverDates | null | undefined;
}

export interface ComparisonState {
  readonly trial: TrialState;
  /** Whether trial and declarations have been read. */
  readonly ready: boolean;
  /** Oldest first; the last one holds. */
  readonly declarations: readonly KeptDeclaration[];
  /** What holds; null before anything was declared, or where it cannot be read. */
  readonly declared: DeclaredAnalysis | null;
  /** By `comparisonName`. */
  readonly comparisons: ReadonlyMap<string, VariableComparison>;
  /** Whether something is still being worked out. */
  readonly working: boolean;
  /** Why comparing stopped. */
  readonly trouble: string | null;
}

/** The name a comparison is kept by. */
export const comparisonName = (variable: ComparedVariable, plots: PlotsCompared): string =>
  `${plots} ${variableKey(variable)}`;

interface Wanted {
  readonly variable: ComparedVariable;
  readonly plots: PlotsCompared;
}

/** A batch of photos being measured is waited out: each of them would start everything anew. */
const SETTLE_MS = 250;

/** The part that compares treatments. */
export const openComparison: OpenPart<TrialComparison> = openComparisonWith(startCompareWorker);

/** The same with another worker. */
export function openComparisonWith(startWorker: () => CompareWorker): OpenPart<TrialComparison> {
  return async (context) => {
    const comparison = new TrialComparison(context, await context.openTrial(), startWorker());
    await comparison.load();
    return comparison;
  };
}

/**
 * Comparing the treatments of the trial: what was declared, and the comparisons that follow from it. They are worked out
 * one by one in a worker, what decides first; what is late is dropped.
 */
export class TrialComparison {
  readonly state: ObservableValue<ComparisonState>;
  readonly #context: Pick<PartContext, 'store' | 'photos' | 'settle' | 'fail'>;
  readonly #trial: Observable<TrialState>;
  readonly #worker: CompareWorker;
  readonly #stops: (() => void)[];
  #wanted: readonly Wanted[] = [];
  /** Counts what makes everything worked out so far old. */
  #revision = 0;
  #runs = false;
  #stopped = false;
  #settling: ReturnType<typeof setTimeout> | null = null;

  constructor(
    context: Pick<PartContext, 'store' | 'photos' | 'settle' | 'fail'>,
    trial: TrialSession,
    worker: CompareWorker,
  ) {
    this.#context = context;
    this.#trial = trial.trial;
    this.#worker = worker;
    this.state = new ObservableValue<ComparisonState>({
      trial: trial.trial.get(),
      ready: false,
      declarations: [],
      declared: null,
      comparisons: new Map(),
      working: false,
      trouble: null,
    });
    worker.onDeath((detail) => this.#change({ trouble: detail, working: false }));
    this.#stops = [
      trial.trial.subscribe(() => this.#loadAgain()),
      context.store.observeTrials(() => this.#loadAgain()),
      context.photos.subscribe(() => {
        if (this.#settling !== null) clearTimeout(this.#settling);
        this.#settling = setTimeout(() => this.#startOver(), SETTLE_MS);
      }),
    ];
  }

  /** Reads what was declared. */
  async load(): Promise<void> {
    const trial = this.#trial.get();
    const kept = trial.state === 'open' ? await this.#context.store.declarations.all(trial.id) : [];
    if (this.#stopped) return;
    const declarations = kept.map(({ id, by, at, reason, declaration }): KeptDeclaration => {
      const read = readDeclaredAnalysis(declaration);
      return { id, by, at, reason, declared: read.ok ? read.value : null };
    });
    this.#change({ trial, declarations, declared: declarations.at(-1)?.declared ?? null, ready: true });
    this.#startOver();
  }

  /** Says what the screen shows; the declared variable is always worked out first. */
  want(wanted: readonly Wanted[]): void {
    this.#wanted = wanted;
    void this.#work();
  }

  /** Whether every plot with a figure on a date has one by the method. */
  checkMethod(method: CoverMethod): readonly OneMethodCheck[] {
    const { trial } = this.state.get();
    if (trial.state !== 'open') return [];
    return checkOneMethod(
      figuresOf(this.#context.photos.get()),
      trial.plan.plots.map(({ plot }) => plot),
      method,
    );
  }

  /** Values of a variable as they stand, whatever was declared: their number may be looked at before. */
  observations(variable: ComparedVariable, method: CoverMethod | null): TrialObservations | null {
    const { trial, declared } = this.state.get();
    if (trial.state !== 'open') return null;
    const { plan, scores } = trial;
    const data = { plan, photos: this.#context.photos.get(), scores };
    return trialObservations(data, variable, method, declared?.classes);
  }

  /** What the analysis of a date, which is there already, left of each plot. */
  residuals({ variable, plots }: VariableComparison, ratingDate: string): Promise<readonly PlotResidual[]> {
    return this.#worker.residuals(comparisonName(variable, plots), ratingDate);
  }

  /**
   * Keeps a declaration: the first one, or one that amends the newest with a reason.
   *
   * @returns whether it was kept; not so where somebody declared meanwhile
   */
  async declare(declared: DeclaredAnalysis, by: string, reason: string | null): Promise<boolean> {
    const { trial, declarations } = this.state.get();
    if (trial.state !== 'open') throw new Error(`there is no trial to declare for: ${trial.state}`);
    const amends = declarations.at(-1)?.id ?? null;
    const { store, settle } = this.#context;
    const stored = storedDeclaration(declared);
    const written = await store.declarations.declare(trial.id, stored, by, amends, reason);
    settle(written);
    await this.load();
    return written.written && written.value;
  }

  stop(): void {
    this.#stopped = true;
    if (this.#settling !== null) clearTimeout(this.#settling);
    for (const stop of this.#stops) stop();
    this.#worker.terminate();
  }

  #loadAgain(): void {
    this.load().catch(this.#context.fail);
  }

  /** Drops what was worked out from other values, and begins anew. */
  #startOver(): void {
    if (this.#stopped) return;
    this.#settling = null;
    this.#revision += 1;
    this.#change({ comparisons: new Map() });
    void this.#work();
  }

  async #work(): Promise<void> {
    if (this.#runs) return;
    this.#runs = true;
    this.#change({ working: true });
    try {
      while (!this.#stopped && (await this.#next()));
    } catch (error) {
      if (!this.#stopped) {
        this.#change({ trouble: error instanceof Error ? error.message : String(error) });
      }
    } finally {
      this.#runs = false;
      this.#change({ working: false });
    }
  }

  /** Works out one more piece. @returns false when all is there */
  async #next(): Promise<boolean> {
    const { trial, declared, comparisons } = this.state.get();
    if (trial.state !== 'open' || declared === null) return false;
    const order: Wanted[] = [{ variable: declared.variable, plots: 'as-declared' }, ...this.#wanted];
    for (const { variable, plots } of order) {
      const name = comparisonName(variable, plots);
      const known = comparisons.get(name);
      if (!known) {
        await this.#begin(name, trial, declared, { variable, plots });
        return true;
      }
      const date = nextDate(known);
      if (date !== null) {
        const revision = this.#revision;
        const found = await this.#worker.onDate(name, date);
        this.#keep(revision, name, (own) => ({ ...own, byDate: new Map(own.byDate).set(date, found) }));
        return true;
      }
      if (known.overDates === undefined) {
        const revision = this.#revision;
        const overDates = await this.#worker.overDates(name);
        this.#keep(revision, name, (own) => ({ ...own, overDates }));
        return true;
      }
    }
    return false;
  }

  async #begin(
    name: string,
    trial: OpenTrial,
    declared: DeclaredAnalysis,
    { variable, plots }: Wanted,
  ): Promise<void> {
    const revision = this.#revision;
    const { plan, scores } = trial;
    const data = { plan, photos: this.#context.photos.get(), scores };
    const found = trialObservations(data, variable, declared.method ?? 'automatic', declared.classes);
    const used =
      plots === 'all' ? found.observations : withoutExcluded(found.observations, variable, declared);
    const options = declaredOptions(plan, declared, variable, used);
    if (used.length > 0) await this.#worker.put(name, used, options);
    if (revision !== this.#revision) return;
    const comparison: VariableComparison = {
      variable,
      plots,
      observations: { ...found, observations: used },
      options,
      dates: datesOf(used),
      byDate: new Map(),
      overDates: used.length === 0 || variable.kind === 'colour' ? null : undefined,
    };
    this.#change({ comparisons: new Map(this.state.get().comparisons).set(name, comparison) });
  }

  #keep(revision: number, name: string, change: (own: VariableComparison) => VariableComparison): void {
    if (revision !== this.#revision) return;
    const comparisons = new Map(this.state.get().comparisons);
    comparisons.set(name, change(comparisons.get(name)!));
    this.#change({ comparisons });
  }

  #change(change: Partial<ComparisonState>): void {
    if (!this.#stopped) this.state.set({ ...this.state.get(), ...change });
  }
}

/** The deciding date first, then the newest. */
function nextDate({ dates, byDate, options: { primary = null } }: VariableComparison): string | null {
  if (primary !== null && dates.includes(primary) && !byDate.has(primary)) return primary;
  return dates.findLast((date) => !byDate.has(date)) ?? null;
}

function figuresOf(photos: readonly PhotoSummary[]) {
  return photos.flatMap(({ plot, ratingDate, figures }) =>
    plot === null || ratingDate === null
      ? []
      : Object.keys(figures).map((method) => ({ plot, ratingDate, method })),
  );
}
