import type { CalendarDay } from '../../core/trial/calendarDay.ts';
import type { WeatherDay } from '../../core/trial/weather.ts';
import type {
  ApplicationMark,
  ChartTreatment,
  ChartWords,
  Quantity,
  Spread,
  TreatmentMean,
} from './chartTypes.ts';

/** The treatment means of one rating date. */
export interface DateMeans {
  readonly ratingDate: CalendarDay;
  /** A treatment that is not listed was not rated. */
  readonly means: readonly TreatmentMean[];
}

export interface CoverOverTimeProps extends ChartWords {
  readonly quantity: Quantity;
  /** In the order of the plan. */
  readonly treatments: readonly ChartTreatment[];
  readonly dates: readonly DateMeans[];
  /** @default 'standard-error' */
  readonly spread?: Spread;
  /** @default 95 */
  readonly intervalPercent?: number;
  /** @default none */
  readonly applications?: readonly ApplicationMark[];
  /** Drawn in a panel below where there is any. @default none */
  readonly weather?: readonly WeatherDay[];
  /** @default null */
  readonly sowingDate?: CalendarDay | null;
}
