import type { CalendarDay } from '../../core/trial/calendarDay.ts';
import type { ChartTreatment, ChartWords, Quantity } from './chartTypes.ts';

/** A treatment with its plots over time. */
export interface TreatmentPlots extends ChartTreatment {
  /** Mean for each of the dates, in their order; null where there is none. */
  readonly means: readonly (number | null)[];
  readonly plots: readonly {
    readonly plot: string;
    /** Value for each of the dates, in their order; null where not rated. */
    readonly values: readonly (number | null)[];
  }[];
}

export interface PlotLinesProps extends ChartWords {
  readonly quantity: Quantity;
  /** In time order. */
  readonly ratingDates: readonly CalendarDay[];
  /** In the order of the plan. */
  readonly treatments: readonly TreatmentPlots[];
}
