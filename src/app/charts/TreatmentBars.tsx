import { chartText } from '../../core/text/charts.ts';
import type { FigureContent } from './drawing.ts';
import { drawTreatmentBars } from './drawTreatmentBars.tsx';
import { Figure } from './Figure.tsx';
import { cautionOf, nameOf, spreadWords } from './figureWords.ts';
import type { TreatmentBarsProps } from './treatmentBarsProps.ts';
import { useFigureContent } from './useFigureContent.ts';

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
