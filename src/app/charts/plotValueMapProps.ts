import type { CalendarDay } from '../../core/trial/calendarDay.ts';
import type { ChartWords, PlotValue, Quantity } from './chartTypes.ts';

/** A plot in its place. */
export interface PlacedPlotValue extends PlotValue {
  /** From 1; row 1 is nearest to the person and drawn at the bottom, as on the plan. */
  readonly row: number;
  /** From 1, left to right. */
  readonly column: number;
}

export interface PlotValueMapProps extends ChartWords {
  readonly quantity: Quantity;
  readonly ratingDate: CalendarDay;
  readonly plots: readonly PlacedPlotValue[];
  /** Ends of the scale of shades; the same for all dates, so that shades can be compared. @default those of the plots shown */
  readonly bounds?: readonly [least: number, most: number];
  /** Length over width of a plot. @default 1 */
  readonly plotAspect?: number;
}
