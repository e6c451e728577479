import { chartText } from '../../core/text/charts.ts';
import type { FigureContent } from './drawing.ts';
import { drawPlotLines } from './drawPlotLines.tsx';
import { Figure } from './Figure.tsx';
import { cautionOf } from './figureWords.ts';
import type { PlotLinesProps } from './plotLinesProps.ts';
import { useFigureContent } from './useFigureContent.ts';

/** Each plot's line: one small picture a treatment, all at one scale. */
export function PlotLines(props: PlotLinesProps) {
  return <Figure content={useFigureContent(plotLines, props)} {...props} />;
}

export function plotLines(props: PlotLinesProps): FigureContent {
  const { quantity, ratingDates, treatments } = props;
  const counts = treatments.map(({ plots }) => plots.length);
  const gaps = treatments.some(({ plots }) => plots.some(({ values }) => values.includes(null)));
  return {
    title: props.title,
    caption: [
      chartText.plotLines.caption(quantity.name),
      ...(counts.length > 0 ? [chartText.replicates(Math.min(...counts), Math.max(...counts), false)] : []),
      ...(gaps ? [chartText.gaps] : []),
      ...(props.remarks ?? []),
    ],
    caution: cautionOf(props),
    table: {
      columns: [
        { head: chartText.columns.plot, numeric: false },
        { head: chartText.treatment, numeric: false },
        ...ratingDates.map((day) => ({ head: chartText.day(day), numeric: true })),
      ],
      rows: treatments.flatMap(({ treatment, plots }) =>
        plots.map(({ plot, values }) => [plot, treatment, ...values.map(chartText.number)]),
      ),
    },
    draw: (size) => drawPlotLines(props, size),
  };
}
