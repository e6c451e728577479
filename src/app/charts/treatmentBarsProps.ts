import type { CalendarDay } from '../../core/trial/calendarDay.ts';
import type { ChartWords, Quantity, Spread, TreatmentMean } from './chartTypes.ts';

export interface TreatmentBarsProps extends ChartWords {
  readonly quantity: Quantity;
  /** Null for means over dates. */
  readonly ratingDate: CalendarDay | null;
  /** In the order of the plan, which is the order of the bars. */
  readonly means: readonly TreatmentMean[];
  /** @default 'standard-error' */
  readonly spread?: Spread;
  /** @default 95 */
  readonly intervalPercent?: number;
}
