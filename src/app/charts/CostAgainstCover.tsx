import { chartText } from '../../core/text/charts.ts';
import type { CalendarDay } from '../../core/trial/calendarDay.ts';
import type { ChartWords, Quantity, Spread, TreatmentMean } from './chartTypes.ts';
import { spoken } from './drawCoverOverTime.tsx';
import type { Drawing, DrawingSize, FigureContent } from './drawing.ts';
import { ErrorBar } from './ErrorBar.tsx';
import { Figure } from './Figure.tsx';
import { barOf, cautionOf, nameOf, spreadWords } from './figureWords.ts';
import { Marker, round } from './Marker.tsx';
import { paint } from './paint.ts';
import { placeLabels } from './placeLabels.ts';
import { ScatterPanel, scatterLayout } from './ScatterPanel.tsx';
import { keyHeight, TreatmentKey } from './seriesLabels.tsx';
import { textWidth, wrapText } from './textWidth.ts';
import { treatmentStyle } from './treatmentStyle.ts';
import { useFigureContent } from './useFigureContent.ts';

/** A treatment's mean with what its programme costs; null where a price is not known. */
export interface ProgrammeMean extends TreatmentMean {
  readonly costPerHectare: number | null;
}

export interface CostAgainstCoverProps extends ChartWords {
  readonly quantity: Quantity;
  /** The trial's own currency, as the user calls it. */
  readonly currency: string;
  readonly ratingDate: CalendarDay;
  /** In the order of the plan. */
  readonly programmes: readonly ProgrammeMean[];
  /** @default 'interval' */
  readonly spread?: Spread;
  /** @default 95 */
  readonly intervalPercent?: number;
}

/** What each programme costs against the cover it left. */
export function CostAgainstCover(props: CostAgainstCoverProps) {
  return <Figure content={useFigureContent(costAgainstCover, props)} {...props} />;
}

const drawn = ({ mean, costPerHectare }: ProgrammeMean) => mean !== null && costPerHectare !== null;

export function costAgainstCover(props: CostAgainstCoverProps): FigureContent {
  const { quantity, programmes, ratingDate, currency, spread = 'interval', intervalPercent = 95 } = props;
  const left = programmes.filter((programme) => !drawn(programme));
  return {
    title: props.title,
    caption: [
      chartText.cost.caption(quantity.name, ratingDate),
      ...spreadWords(programmes.filter(drawn), spread, intervalPercent, false),
      ...(left.length > 0 ? [chartText.cost.unknown(left.map(nameOf))] : []),
      ...(props.remarks ?? []),
    ],
    caution: cautionOf(props),
    table: {
      columns: [
        { head: chartText.treatment, numeric: false },
        { head: chartText.cost.axis(currency), numeric: true },
        { head: chartText.columns.mean(quantity.unit), numeric: true },
        { head: chartText.columns.standardError, numeric: true },
        { head: chartText.columns.low, numeric: true },
        { head: chartText.columns.high, numeric: true },
        { head: chartText.columns.n, numeric: true },
      ],
      rows: programmes.map((one) => [
        nameOf(one),
        one.costPerHectare === null ? chartText.noValue : chartText.cost.value(one.costPerHectare),
        chartText.number(one.mean),
        chartText.number(one.standardError),
        chartText.number(one.low),
        chartText.number(one.high),
        String(one.n),
      ]),
    },
    draw: (size) => drawCostAgainstCover(props, size),
  };
}

const LEADING = 1.2;
/** Up to so many programmes have their names beside their points; more have numbers there and a key below. */
const NAMED = 6;

function drawCostAgainstCover(props: CostAgainstCoverProps, size: DrawingSize): Drawing {
  const { quantity, programmes, currency, spread = 'interval' } = props;
  const { widthPx, textPx } = size;
  const known = programmes.flatMap((programme, place) =>
    drawn(programme) ? [{ programme, place, cost: programme.costPerHectare!, mean: programme.mean! }] : [],
  );
  const full = programmes.length <= NAMED;
  const key = { treatments: programmes, widthPx, textPx };
  const keyPx = full ? 0 : keyHeight(key) + textPx;
  const room = { ...size, heightPx: size.heightPx === null ? null : size.heightPx - keyPx };
  const layout = scatterLayout(room, {
    x: known.map(({ cost }) => cost),
    y: known.flatMap(({ programme, mean }) => [mean, ...(barOf(programme, spread) ?? [])]),
    zeroX: true,
    zeroY: true,
    rangeY: quantity.range,
    rightPx: Math.min(120, widthPx * 0.12),
  });
  const points = known.map(({ programme, place, cost, mean }) => {
    const lines = full
      ? wrapText(nameOf(programme), Math.min(190, widthPx * 0.32), textPx, 4)
      : [programme.treatment];
    const bar = barOf(programme, spread);
    return {
      programme,
      place,
      x: layout.x.at(cost),
      y: layout.y.at(mean),
      bar: bar && ([layout.y.at(bar[0]), layout.y.at(bar[1])] as const),
      lines,
      widthPx: Math.max(...lines.map((line) => textWidth(line, textPx))),
      heightPx: lines.length * textPx * LEADING,
    };
  });
  const labels = placeLabels(
    points,
    points.flatMap(({ x, bar }) =>
      bar ? [{ x: x - 4, y: Math.min(...bar), width: 8, height: Math.abs(bar[0] - bar[1]) }] : [],
    ),
    {
      x: layout.left,
      y: layout.top - textPx,
      width: widthPx - layout.left,
      height: layout.bottom - layout.top + textPx,
    },
  );
  return {
    widthPx,
    heightPx: layout.heightPx + keyPx,
    marks: points.map(({ programme, x, y }, step) => ({
      x,
      y,
      series: 0,
      step,
      says: chartText.cost.words(
        nameOf(programme),
        `${chartText.cost.value(programme.costPerHectare!)} ${currency}`,
        chartText.meanWords(spoken(programme, quantity.name), quantity.unit, props.ratingDate),
      ),
    })),
    content: (
      <>
        <ScatterPanel
          layout={layout}
          textPx={textPx}
          nameX={chartText.cost.axis(currency)}
          nameY={chartText.axis(quantity.name, quantity.unit)}
        >
          {points.map(({ programme, place, x, y, bar, lines }, index) => {
            const look = treatmentStyle(place);
            return (
              <g key={programme.treatment} data-treatment={programme.treatment}>
                {bar && <ErrorBar x={x} y={bar} colour={look.colour} />}
                <Marker x={x} y={y} look={look} radius={6} />
                <g
                  textAnchor={labels[index]!.anchor}
                  fontSize={textPx}
                  fill={paint.ink}
                  stroke={paint.sheet}
                  strokeWidth={3}
                  paintOrder="stroke"
                >
                  {lines.map((line, row) => (
                    <text
                      key={line}
                      x={round(labels[index]!.x)}
                      y={round(labels[index]!.top + textPx * (0.9 + row * LEADING))}
                    >
                      {line}
                    </text>
                  ))}
                </g>
              </g>
            );
          })}
        </ScatterPanel>
        {!full && <TreatmentKey {...key} x={0} y={layout.heightPx + textPx * 0.4} lines={false} />}
      </>
    ),
  };
}
