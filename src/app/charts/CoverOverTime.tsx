import { chartText } from '../../core/text/charts.ts';
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
import { drawCoverOverTime } from './drawCoverOverTime.tsx';
import type { FigureContent } from './drawing.ts';
import { Figure } from './Figure.tsx';
import { cautionOf, nameOf, spreadWords } from './figureWords.ts';
import { useFigureContent } from './useFigureContent.ts';

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

/** Cover over time by treatment, with applications and weather below on the same axis. */
export function CoverOverTime(props: CoverOverTimeProps) {
  const content = useFigureContent(coverOverTime, props);
  return <Figure content={content} {...props} />;
}

/** The picture with its words and table. */
export function coverOverTime(props: CoverOverTimeProps): FigureContent {
  const {
    quantity,
    dates,
    spread = 'standard-error',
    intervalPercent = 95,
    weather = [],
    applications = [],
  } = props;
  const all = dates.flatMap(({ means }) => means);
  const text = chartText.overTime;
  const rated = new Set(all.filter(({ mean }) => mean !== null).map(({ treatment }) => treatment));
  const never = props.treatments.filter(({ treatment }) => !rated.has(treatment));
  return {
    title: props.title,
    caption: [
      text.caption(quantity.name),
      ...spreadWords(all, spread, intervalPercent, true),
      ...(props.treatments.length > 1 && all.length > 0 ? [text.sideBySide] : []),
      ...(all.some(({ mean }) => mean === null) ? [chartText.gaps] : []),
      ...(never.length > 0 && all.length > 0 ? [text.neverRated(never.map(nameOf))] : []),
      ...(applications.length > 0 ? [text.applied] : []),
      ...(weather.length > 0 ? [text.weatherCaption] : []),
      ...(props.remarks ?? []),
    ],
    caution: cautionOf(props),
    table: {
      columns: [
        { head: chartText.columns.ratingDate, numeric: false },
        { head: chartText.treatment, numeric: false },
        { head: chartText.columns.mean(quantity.unit), numeric: true },
        { head: chartText.columns.standardError, numeric: true },
        { head: chartText.columns.low, numeric: true },
        { head: chartText.columns.high, numeric: true },
        { head: chartText.columns.n, numeric: true },
        { head: chartText.columns.letters, numeric: false },
      ],
      rows: dates.flatMap(({ ratingDate, means }) =>
        means.map((mean) => [
          chartText.day(ratingDate),
          nameOf(mean),
          chartText.number(mean.mean),
          chartText.number(mean.standardError),
          chartText.number(mean.low),
          chartText.number(mean.high),
          String(mean.n),
          mean.letters ?? '',
        ]),
      ),
    },
    draw: (size) => drawCoverOverTime(props, size),
  };
}
