import type { TurfColour } from '../cover/turfColour.ts';
import { writtenPercent } from '../cover/writtenPercent.ts';
import type { CoverMethod } from '../exchange/coverTable.ts';
import type { ObservationTable } from '../exchange/observationTable.ts';
import type { CoverClass } from '../trial/coverClass.ts';
import { groupBy } from '../trial/groupBy.ts';
import { type Plot, plotKey } from '../trial/plot.ts';
import type { Score } from '../trial/rating.ts';
import { adjacentTreatments } from '../trial/treatment.ts';
import type { TrialPlan } from '../trial/trialPlan.ts';
import type { RatedObservation } from './compareTrial.ts';
import { type ComparedVariable, classesOf, variableId } from './declaredAnalysis.ts';
import { mean } from './mean.ts';

/** What a comparison needs of a photo. */
export interface ComparedPhoto {
  readonly plot: string | null;
  readonly ratingDate: string | null;
  readonly figures: Readonly<Partial<Record<CoverMethod, ComparedFigure>>>;
}

export interface ComparedFigure {
  readonly cover: readonly { readonly classId: string; readonly coverFraction: number }[];
  readonly flags: readonly string[];
  readonly turfColour?: TurfColour | null | undefined;
}

/** What was measured and scored in a trial. */
export interface TrialData {
  readonly plan: Pick<TrialPlan, 'trial' | 'plots' | 'treatments' | 'ratedVariables'>;
  readonly photos: readonly ComparedPhoto[];
  readonly scores: readonly Score[];
}

/** Observations of one variable, and what there is to be told about them. */
export interface TrialObservations extends ObservationTable {
  /** Plots of an untreated control beside the trial: outside the randomisation, so outside the analysis. */
  readonly adjacent: readonly RatedObservation[];
  /** Photos with a figure that lie on no plot of the plan, or have no date. */
  readonly withoutPlot: number;
  /** Photos of plots that have a figure, but none by the method. */
  readonly withoutMethod: number;
  /** Of a colour: photos with a grey card. A date is balanced where all its photos have one. */
  readonly balanced: number;
}

/**
 * A trial's values of one variable, one for each plot and rating date: photos, raters and frames of a plot are averaged.
 *
 * A plot without a value has no observation; nothing stands for it. Exclusions are not looked at here.
 *
 * @param method how the figures were made; not looked at for rated variables and colour, which has the automatic mask
 * @param classes the classes as declared, for a reporting group
 */
export function trialObservations(
  { plan, photos, scores }: TrialData,
  variable: ComparedVariable,
  method: CoverMethod | null,
  classes: readonly CoverClass[] = plan.trial.classes,
): TrialObservations {
  const plots = new Map(plan.plots.map((plot) => [plotKey(plot.plot), plot]));
  const collected = new Collection(plots, variableId(variable));
  if (variable.kind === 'rated') {
    for (const { variable: scored, plot, ratingDate, value } of scores) {
      if (scored === variable.variableId) collected.add(plot, ratingDate, value);
    }
  } else if (variable.kind === 'colour') {
    for (const onDate of groupBy(photos, ({ ratingDate }) => ratingDate).values()) {
      const colours = onDate.flatMap(({ plot, ratingDate, figures }) => {
        const colour = figures.automatic?.turfColour;
        return colour ? [{ plot, ratingDate, ...colour }] : [];
      });
      // balanced and unbalanced colours are never set beside each other
      const balanced = colours.every(({ balancedIndex }) => balancedIndex !== null);
      for (const { plot, ratingDate, darkGreenColourIndex, balancedIndex } of colours) {
        collected.add(plot, ratingDate, balanced ? balancedIndex : darkGreenColourIndex);
        if (balancedIndex !== null) collected.balanced += 1;
      }
    }
  } else {
    const ids = classesOf(variable, classes).map(({ id }) => id);
    for (const { plot, ratingDate, figures } of photos) {
      const figure = method === null ? undefined : figures[method];
      if (figure) collected.add(plot, ratingDate, coverPercentOf(figure, ids), figure.flags);
      else if (Object.keys(figures).length > 0) collected.withoutMethod += 1;
    }
  }
  return collected.observations(plan, variable.kind === 'rated' ? null : method);
}

/** Null where the figure was made without one of the classes: it says nothing about it. */
function coverPercentOf({ cover }: ComparedFigure, ids: readonly string[]): number | null {
  if (ids.length === 0) return null;
  let sum = 0;
  for (const id of ids) {
    const share = cover.find(({ classId }) => classId === id);
    if (!share) return null;
    sum += writtenPercent(share.coverFraction);
  }
  return sum;
}

class Collection {
  readonly #plots: ReadonlyMap<string, Plot>;
  readonly #id: string;
  readonly #cells = new Map<string, { readonly plot: Plot; readonly date: string; values: number[] }>();
  readonly #flags = new Map<string, number>();
  #flagged = 0;
  #empty = 0;
  #withoutPlot = 0;
  withoutMethod = 0;
  balanced = 0;

  constructor(plots: ReadonlyMap<string, Plot>, id: string) {
    this.#plots = plots;
    this.#id = id;
  }

  add(name: string | null, date: string | null, value: number | null, flags: readonly string[] = []): void {
    const plot = name === null ? undefined : this.#plots.get(plotKey(name));
    if (!plot || date === null) {
      this.#withoutPlot += 1;
      return;
    }
    if (value === null) {
      this.#empty += 1;
      return;
    }
    if (flags.length > 0) this.#flagged += 1;
    for (const flag of flags) this.#flags.set(flag, (this.#flags.get(flag) ?? 0) + 1);
    const key = `${date} ${plotKey(plot.plot)}`;
    const own = this.#cells.get(key);
    if (own) own.values.push(value);
    else this.#cells.set(key, { plot, date, values: [value] });
  }

  observations({ treatments }: TrialData['plan'], method: string | null): TrialObservations {
    const beside = adjacentTreatments(treatments);
    const observations: RatedObservation[] = [];
    const adjacent: RatedObservation[] = [];
    let fewest = Number.POSITIVE_INFINITY;
    let most = 0;
    for (const { plot, date, values } of this.#cells.values()) {
      fewest = Math.min(fewest, values.length);
      most = Math.max(most, values.length);
      (beside.has(plot.treatment) ? adjacent : observations).push({
        plot: plot.plot,
        treatment: String(plot.treatment),
        block: plot.block === null ? null : String(plot.block),
        row: String(plot.row),
        column: String(plot.column),
        factors: {},
        ratingDate: date,
        classId: this.#id,
        value: mean(values),
      });
    }
    return {
      observations,
      adjacent,
      emptyValues: this.#empty,
      subsamples: { fewest, most },
      method,
      classes: [this.#id],
      flagged: { rows: this.#flagged, flags: this.#flags },
      withoutPlot: this.#withoutPlot,
      withoutMethod: this.withoutMethod,
      balanced: this.balanced,
    };
  }
}
