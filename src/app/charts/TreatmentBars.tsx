import { chartText } from '../../core/text/charts.ts';
import type { CalendarDay } from '../../core/trial/calendarDay.ts';
import type { ChartWords, Quantity, Spread, TreatmentMean } from './chartTypes.ts';
import type { FigureContent } from './drawing.ts';
import { drawTreatmentBars } from './drawTreatmentBars.tsx';
import { Figure } from './Figure.tsx';
import { cautionOf, nameOf, spreadWords } from './figureWords.ts';
import { useFigureContent } from './useFigureContent.ts';

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

/** A bar for each treatment with its standard error or interval and its letters. */
export function TreatmentBars(props: TreatmentBarsProps) {
  return <Figure content={useFigureContent(treatmentBars, props)} {...props} />;
}

export function treatmentBars(props: TreatmentBarsProps): FigureContent {
  const { quantity, means, ratingDate, spread = 'standard-error', intervalPercent = 95 } = props;
  const lettered = means.some(({ letters }) => letters !== null);
  return {
    title: props.title,
    caption: [
      chartText.bars.caption(quantity.name, ratingDate),
      ...spreadWords(means, spread, intervalPercent, false),
      lettered ? chartText.letters : chartText.lettersMissing,
      ...(props.remarks ?? []),
    ],
    caution: cautionOf(props),
    table: {
      columns: [
        { head: chartText.treatment, numeric: false },
        { head: chartText.columns.mean(quantity.unit), numeric: true },
        { head: chartText.columns.standardError, numeric: true },
        { head: chartText.columns.low, numeric: true },
        { head: chartText.columns.high, numeric: true },
        { head: chartText.columns.n, numeric: true },
        { head: chartText.columns.letters, numeric: false },
      ],
      rows: means.map((mean) => [
        nameOf(mean),
        chartText.number(mean.mean),
        chartText.number(mean.standardError),
        chartText.number(mean.low),
        chartText.number(mean.high),
        String(mean.n),
        mean.letters ?? '',
      ]),
    },
    draw: (size) => drawTreatmentBars(props, size),
  };
}
