import { chartText } from '../../core/text/charts.ts';
import { DayAxis, dayAxisHeight, ValueAxis } from './axes.tsx';
import type { Drawing, DrawingSize, Mark } from './drawing.ts';
import { nameOf } from './figureWords.ts';
import { linePath } from './linePath.ts';
import { Marker, round } from './Marker.tsx';
import { paint } from './paint.ts';
import type { PlotLinesProps } from './plotLinesProps.ts';
import { dayScale, valueScale } from './scales.ts';
import { spreadLabels } from './spreadLabels.ts';
import { textWidth, wrapText } from './textWidth.ts';
import { treatmentStyle } from './treatmentStyle.ts';

const LEAST_PANEL_PX = 210;
const LEADING = 1.2;
/** Up to so many plots are named at the ends of their lines. */
const PLOTS_NAMED = 6;
const GAP = 18;

export function drawPlotLines(props: PlotLinesProps, size: DrawingSize): Drawing {
  const { quantity, ratingDates, treatments } = props;
  const { widthPx, textPx } = size;
  const columns = Math.max(
    1,
    Math.min(treatments.length, 4, Math.floor((widthPx + GAP) / (LEAST_PANEL_PX + GAP))),
  );
  const rows = Math.max(1, Math.ceil(treatments.length / columns));
  const panelPx = (widthPx - GAP * (columns - 1)) / columns;
  const left = Math.ceil(textWidth('−100', textPx)) + 10;
  const named = treatments.every(({ plots }) => plots.length <= PLOTS_NAMED);
  const longest = Math.max(0, ...treatments.flatMap(({ plots }) => plots.map(({ plot }) => plot.length)));
  const labelPx = named ? Math.min(longest, 12) * textPx * 0.56 + 10 : 8;
  const heads = treatments.map((one) => wrapText(nameOf(one), panelPx - textPx * 1.8, textPx, 4));
  const headPx = Math.max(1, ...heads.map(({ length }) => length)) * textPx * LEADING + textPx * 0.9;
  const axisTitlePx = textPx * 1.8;
  const footPx = dayAxisHeight(textPx);
  const rowFixed = headPx + footPx + textPx * 0.6;
  const plotPx =
    size.heightPx === null
      ? Math.min(170, Math.max(110, panelPx * 0.55))
      : Math.max(60, (size.heightPx - axisTitlePx) / rows - rowFixed);
  const values = treatments.flatMap(({ means, plots }) => [
    ...means,
    ...plots.flatMap(({ values }) => values),
  ]);
  const marks: Mark[] = [];
  let series = 0;
  const panels = treatments.map((treatment, place) => {
    const x = (place % columns) * (panelPx + GAP);
    const top = axisTitlePx + Math.floor(place / columns) * (plotPx + rowFixed) + headPx;
    const bottom = top + plotPx;
    const scale = valueScale(values, {
      pixels: [bottom, top],
      range: quantity.range ?? 'tight',
      apartPx: 36,
    });
    const [from, to] = [x + left, x + panelPx - labelPx];
    const time = ratingDates.length > 0 ? dayScale(ratingDates, [from + 4, to - 4]) : null;
    const pointsOf = (values: readonly (number | null)[]) =>
      ratingDates.map((day, step) => {
        const value = values[step] ?? null;
        return value === null || time === null ? null : ([time.at(day), scale.at(value)] as const);
      });
    const lines = treatment.plots.map(({ plot, values }) => ({ plot, values, points: pointsOf(values) }));
    for (const { plot, values, points } of lines) {
      points.forEach((point, step) => {
        if (point)
          marks.push({
            x: point[0],
            y: point[1],
            series,
            step,
            says: chartText.plotLines.plotWords(plot, ratingDates[step]!, values[step]!, quantity.unit),
          });
      });
      series++;
    }
    return {
      treatment,
      place,
      x,
      top,
      bottom,
      scale,
      from,
      to,
      time,
      lines,
      means: pointsOf(treatment.means),
    };
  });
  return {
    widthPx,
    heightPx: Math.ceil(axisTitlePx + rows * (plotPx + rowFixed)),
    marks,
    content: (
      <g>
        <text x={0} y={textPx} fontSize={textPx} fontWeight={600} fill={paint.ink}>
          {chartText.axis(quantity.name, quantity.unit)}
        </text>
        {panels.map(({ treatment, place, x, top, bottom, scale, from, to, time, lines, means }) => {
          const look = treatmentStyle(place);
          return (
            <g key={treatment.treatment} data-treatment={treatment.treatment}>
              <g fontSize={textPx} fill={paint.ink}>
                <Marker x={x + textPx * 0.5} y={top - headPx + textPx * 0.65} look={look} radius={4.5} />
                {heads[place]!.map((line, index) => (
                  <text
                    key={line}
                    x={round(x + textPx * 1.5)}
                    y={round(top - headPx + textPx + index * textPx * LEADING)}
                  >
                    {line}
                  </text>
                ))}
              </g>
              <ValueAxis scale={scale} x={[from, to]} textPx={textPx * 0.92} />
              {lines.map(({ plot, points }) => (
                <path
                  key={plot}
                  d={linePath(points)}
                  fill="none"
                  stroke={paint.strong}
                  strokeWidth={1}
                  data-part="plot-line"
                />
              ))}
              {lines.map(({ plot, points }) =>
                alone(points).map(([x, y]) => (
                  <circle key={`${plot} ${x}`} cx={round(x)} cy={round(y)} r={2} fill={paint.strong} />
                )),
              )}
              <path
                d={linePath(means)}
                fill="none"
                stroke={look.colour}
                strokeWidth={2.75}
                strokeDasharray={look.dash}
                data-part="mean-line"
              />
              {means.map(
                (point) =>
                  point && <Marker key={point[0]} x={point[0]} y={point[1]} look={look} radius={4.5} />,
              )}
              {named && <PlotNames {...{ lines, to, top, bottom, textPx }} />}
              {time && (
                <DayAxis
                  scale={time}
                  days={ratingDates}
                  y={bottom}
                  textPx={textPx * 0.92}
                  x={[x, x + panelPx]}
                />
              )}
            </g>
          );
        })}
      </g>
    ),
  };
}

type Point = readonly [x: number, y: number];

/** Points with a gap on both sides, which no line shows. */
function alone(points: readonly (Point | null)[]): Point[] {
  return points.filter((point, i): point is Point => Boolean(point) && !points[i - 1] && !points[i + 1]);
}

interface PlotNamesProps {
  readonly lines: readonly { readonly plot: string; readonly points: readonly (Point | null)[] }[];
  readonly to: number;
  readonly top: number;
  readonly bottom: number;
  readonly textPx: number;
}

function PlotNames({ lines, to, top, bottom, textPx }: PlotNamesProps) {
  const ended = lines.flatMap(({ plot, points }) => {
    const last = points.filter((point) => point !== null).at(-1);
    return last ? [{ plot, y: last[1] }] : [];
  });
  const small = textPx * 0.88;
  const centres = spreadLabels(
    ended.map(({ y }) => y),
    ended.map(() => small * 1.1),
    top - small / 2,
    bottom + small / 2,
  );
  return (
    <g fontSize={small} fill={paint.soft}>
      {ended.map(({ plot }, index) => (
        <text key={plot} x={round(to + 4)} y={round(centres[index]! + small * 0.35)}>
          {plot}
        </text>
      ))}
    </g>
  );
}
