import type {
  ClassOverDates,
  ComparisonOptions,
  DateComparison,
  RatedObservation,
} from '../src/core/statistics/compareTrial.ts';
import type { PlotResidual } from '../src/core/statistics/plotResiduals.ts';

/** What the page asks of the worker that compares treatments. See core/statistics/comparisonDesk.ts. */
export interface CompareApi {
  put(name: string, observations: readonly RatedObservation[], options: ComparisonOptions): string[];
  onDate(name: string, ratingDate: string): DateComparison;
  overDates(name: string): ClassOverDates | null;
  residuals(name: string, ratingDate: string): PlotResidual[];
}
