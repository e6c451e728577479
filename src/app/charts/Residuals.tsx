import { chartText } from '../../core/text/charts.ts';
import type { ChartTreatment, ChartWords } from './chartTypes.ts';
import type { Drawing, DrawingSize, FigureContent } from './drawing.ts';
import { Figure } from './Figure.tsx';
import { cautionOf } from './figureWords.ts';
import { Marker, round } from './Marker.tsx';
import { paint } from './paint.ts';
import { placeLabels } from './placeLabels.ts';
import { type ScatterLayout, ScatterPanel, scatterLayout } from './ScatterPanel.tsx';
import { keyHeight, TreatmentKey } from './seriesLabels.tsx';
import { textWidth } from './textWidth.ts';
import { treatmentStyle } from './treatmentStyle.ts';
import { useFigureContent } from './useFigureContent.ts';

/** What the analysis left of a plot's value, on the scale of the analysis. */
export interface PlotResidual {
  readonly plot: string;
  readonly treatment: string;
  readonly fitted: number;
  readonly residual: number;
  /** Quantile of the standard normal distribution that belongs to its rank. */
  readonly normalQuantile: number;
}

export interface ResidualsProps extends ChartWords {
  /** Name and unit of the scale of the analysis. */
  readonly scaleName: string;
  readonly treatments: readonly ChartTreatment[];
  readonly residuals: readonly PlotResidual[];
  /** Plots to name; the statistics say which are far off. @default none */
  readonly named?: readonly string[];
}

export interface NormalQuantilesProps extends ResidualsProps {
  /** Residual = intercept + slope x quantile; null draws none. */
  readonly line: { readonly intercept: number; readonly slope: number } | null;
}

/** Residual against fitted value. */
export function ResidualsAgainstFitted(props: ResidualsProps) {
  return <Figure content={useFigureContent(residualsAgainstFitted, props)} {...props} />;
}

/** Residuals against the quantiles of a normal distribution. */
export function NormalQuantiles(props: NormalQuantilesProps) {
  return <Figure content={useFigureContent(normalQuantiles, props)} {...props} />;
}

export function residualsAgainstFitted(props: ResidualsProps): FigureContent {
  return residualContent(props, {
    caption: chartText.residuals.fittedCaption,
    head: chartText.columns.fitted,
    across: ({ fitted }) => fitted,
    words: chartText.residuals.words,
    line: null,
  });
}

export function normalQuantiles(props: NormalQuantilesProps): FigureContent {
  return residualContent(props, {
    caption: chartText.residuals.quantileCaption,
    head: chartText.columns.quantile,
    across: ({ normalQuantile }) => normalQuantile,
    words: chartText.residuals.quantileWords,
    line: props.line,
  });
}

interface Kind {
  readonly caption: string;
  readonly head: string;
  readonly across: (residual: PlotResidual) => number;
  readonly words: (plot: string, treatment: string, across: string, residual: string) => string;
  readonly line: NormalQuantilesProps['line'];
}

function residualContent(props: ResidualsProps, kind: Kind): FigureContent {
  return {
    title: props.title,
    caption: [kind.caption, chartText.residuals.n(props.residuals.length), ...(props.remarks ?? [])],
    caution: cautionOf(props),
    table: {
      columns: [
        { head: chartText.columns.plot, numeric: false },
        { head: chartText.treatment, numeric: false },
        { head: kind.head, numeric: true },
        { head: chartText.columns.residual, numeric: true },
      ],
      rows: props.residuals.map((one) => [
        one.plot,
        one.treatment,
        chartText.fine(kind.across(one)),
        chartText.fine(one.residual),
      ]),
    },
    draw: (size) => drawResiduals(props, kind, size),
  };
}

function drawResiduals(props: ResidualsProps, kind: Kind, size: DrawingSize): Drawing {
  const { residuals, treatments, scaleName, named = [] } = props;
  const { widthPx, textPx } = size;
  const key = { treatments, widthPx, textPx };
  const keyPx = treatments.length > 1 ? keyHeight(key) + textPx : 0;
  const layout = scatterLayout(
    { ...size, heightPx: size.heightPx === null ? null : size.heightPx - keyPx },
    {
      x: residuals.map(kind.across),
      y: residuals.map(({ residual }) => residual),
      zeroX: false,
      zeroY: true,
    },
  );
  const places = new Map(treatments.map(({ treatment }, place) => [treatment, place]));
  const points = residuals.map((one) => ({
    one,
    x: layout.x.at(kind.across(one)),
    y: layout.y.at(one.residual),
    look: treatmentStyle(places.get(one.treatment) ?? 0),
  }));
  const labelled = points.filter(({ one }) => named.includes(one.plot));
  const labels = placeLabels(
    labelled.map(({ one, x, y }) => ({
      x,
      y,
      widthPx: textWidth(one.plot, textPx),
      heightPx: textPx * 1.2,
    })),
    points.map(({ x, y }) => ({ x: x - 5, y: y - 5, width: 10, height: 10 })),
    { x: layout.left, y: layout.top, width: layout.right - layout.left, height: layout.bottom - layout.top },
  );
  return {
    widthPx,
    heightPx: layout.heightPx + keyPx,
    marks: [...points]
      .sort((a, b) => a.x - b.x)
      .map(({ one, x, y }, step) => ({
        x,
        y,
        series: 0,
        step,
        says: kind.words(
          one.plot,
          one.treatment,
          chartText.fine(kind.across(one)),
          chartText.fine(one.residual),
        ),
      })),
    content: (
      <>
        <ScatterPanel
          layout={layout}
          textPx={textPx}
          nameX={kind.line === null ? chartText.axis(kind.head, scaleName) : kind.head}
          nameY={chartText.axis(chartText.columns.residual, scaleName)}
        >
          {kind.line && <ReferenceLine layout={layout} line={kind.line} />}
          {points.map(({ one, x, y, look }) => (
            <Marker key={one.plot} x={x} y={y} look={look} radius={4.5} />
          ))}
          <g fontSize={textPx} fill={paint.ink}>
            {labelled.map(({ one }, index) => (
              <text
                key={one.plot}
                x={round(labels[index]!.x)}
                y={round(labels[index]!.top + textPx * 0.95)}
                textAnchor={labels[index]!.anchor}
              >
                {one.plot}
              </text>
            ))}
          </g>
        </ScatterPanel>
        {keyPx > 0 && <TreatmentKey {...key} x={0} y={layout.heightPx + textPx * 0.4} lines={false} />}
      </>
    ),
  };
}

/** The part of the line inside the panel. */
function ReferenceLine({
  layout,
  line,
}: {
  layout: ScatterLayout;
  line: NonNullable<NormalQuantilesProps['line']>;
}) {
  const { x, y, top, bottom } = layout;
  const ends = [x.least, x.most].map((quantile) => ({
    x: x.at(quantile),
    y: y.at(line.intercept + line.slope * quantile),
  }));
  const [from, to] = ends as [{ x: number; y: number }, { x: number; y: number }];
  const inside = clip(from, to, top, bottom);
  if (!inside) return null;
  return (
    <path
      d={`M${round(inside[0].x)} ${round(inside[0].y)}L${round(inside[1].x)} ${round(inside[1].y)}`}
      stroke={paint.soft}
      strokeWidth={1.25}
      strokeDasharray="6 4"
      fill="none"
      data-part="reference"
    />
  );
}

interface Place {
  readonly x: number;
  readonly y: number;
}

/** A line cut at two levels; null where it lies outside of them. */
function clip(from: Place, to: Place, top: number, bottom: number): [Place, Place] | null {
  let [start, end] = [0, 1];
  const fall = to.y - from.y;
  for (const [level, below] of [
    [top, false],
    [bottom, true],
  ] as const) {
    const outsideStart = below ? from.y > level : from.y < level;
    const outsideEnd = below ? to.y > level : to.y < level;
    if (outsideStart && outsideEnd) return null;
    if (outsideStart) start = Math.max(start, (level - from.y) / fall);
    if (outsideEnd) end = Math.min(end, (level - from.y) / fall);
  }
  if (start > end) return null;
  const at = (share: number) => ({ x: from.x + (to.x - from.x) * share, y: from.y + fall * share });
  return [at(start), at(end)];
}
