import { chartText } from '../../core/text/charts.ts';
import type { FigureContent } from './drawing.ts';
import { drawPlotValueMap } from './drawPlotValueMap.tsx';
import { Figure } from './Figure.tsx';
import { cautionOf } from './figureWords.ts';
import type { PlotValueMapProps } from './plotValueMapProps.ts';
import { useFigureContent } from './useFigureContent.ts';

/** Values where the plots lie. */
export function PlotValueMap(props: PlotValueMapProps) {
  return <Figure content={useFigureContent(plotValueMap, props)} {...props} />;
}

export function plotValueMap(props: PlotValueMapProps): FigureContent {
  const { quantity, ratingDate, plots } = props;
  const missing = plots.filter(({ value }) => value === null).length;
  return {
    title: props.title,
    caption: [
      chartText.map.caption(quantity.name, ratingDate),
      chartText.map.inPlot,
      chartText.map.rated(plots.length - missing),
      ...(missing > 0 ? [chartText.map.hatched(missing)] : []),
      ...(props.remarks ?? []),
    ],
    caution: cautionOf(props),
    table: {
      columns: [
        { head: chartText.columns.plot, numeric: false },
        { head: chartText.treatment, numeric: false },
        { head: chartText.columns.block, numeric: false },
        { head: chartText.columns.row, numeric: true },
        { head: chartText.columns.column, numeric: true },
        { head: chartText.columns.value(quantity.unit), numeric: true },
      ],
      rows: plots.map(({ plot, treatment, block, row, column, value }) => [
        plot,
        treatment,
        block ?? '',
        String(row),
        String(column),
        chartText.number(value),
      ]),
    },
    draw: (size) => drawPlotValueMap(props, size),
  };
}
