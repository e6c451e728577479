import { chartText } from '../../core/text/charts.ts';
import type { CoverOverTimeProps } from './coverOverTimeProps.ts';
import { drawCoverOverTime } from './drawCoverOverTime.tsx';
import type { FigureContent } from './drawing.ts';
import { Figure } from './Figure.tsx';
import { cautionOf, nameOf, spreadWords } from './figureWords.ts';
import { useFigureContent } from './useFigureContent.ts';

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
