import {
  type ClassOverDates,
  type ComparisonOptions,
  compareOnDate,
  compareOverDates,
  type DateComparison,
  datesOf,
  type RatedObservation,
} from './compareTrial.ts';
import { type PlotResidual, plotResiduals } from './plotResiduals.ts';

interface OnDesk {
  readonly observations: readonly RatedObservation[];
  readonly options: ComparisonOptions;
  readonly dates: readonly string[];
  readonly byDate: Map<string, DateComparison>;
}

/**
 * Comparisons piece by piece, for a worker: what is asked for first is there first, and nothing is computed twice. The pieces
 * together are what `compareTrial` answers.
 */
export class ComparisonDesk {
  readonly #variables = new Map<string, OnDesk>();

  /** Lays down the observations of one variable in the place of those of the same name. @returns its rating dates */
  put(name: string, observations: readonly RatedObservation[], options: ComparisonOptions): string[] {
    const dates = datesOf(observations);
    this.#variables.set(name, { observations, options, dates, byDate: new Map() });
    return dates;
  }

  /** @throws RangeError for a name or date that is not there */
  onDate(name: string, ratingDate: string): DateComparison {
    const { observations, options, dates, byDate } = this.#variable(name);
    const known = byDate.get(ratingDate);
    if (known) return known;
    const found = compareOnDate(observations, ratingDate, options, dates.length > 1);
    byDate.set(ratingDate, found);
    return found;
  }

  /** Null with fewer than 2 dates. @throws RangeError for a name that is not there */
  overDates(name: string): ClassOverDates | null {
    const { observations, options, dates } = this.#variable(name);
    if (dates.length < 2) return null;
    const analyses = dates.map((date) => this.onDate(name, date));
    return compareOverDates(observations, analyses, options);
  }

  /** What the analysis of a date left of each plot. @throws RangeError for a name that is not there */
  residuals(name: string, ratingDate: string): PlotResidual[] {
    const { observations, options } = this.#variable(name);
    return plotResiduals(
      observations.filter((observation) => observation.ratingDate === ratingDate),
      options,
    );
  }

  #variable(name: string): OnDesk {
    const found = this.#variables.get(name);
    if (!found) throw new RangeError(`no observations were put down as "${name}"`);
    return found;
  }
}
