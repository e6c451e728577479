import type { LimitsOfAgreement } from '../../core/cover/methodAgreement.ts';
import { chartText } from '../../core/text/charts.ts';
import type { ChartWords } from './chartTypes.ts';
import type { Drawing, DrawingSize, FigureContent } from './drawing.ts';
import { Figure } from './Figure.tsx';
import { cautionOf } from './figureWords.ts';
import { Marker, round } from './Marker.tsx';
import { paint } from './paint.ts';
import { ScatterPanel, scatterLayout } from './ScatterPanel.tsx';
import { spreadLabels } from './spreadLabels.ts';
import { textWidth } from './textWidth.ts';
import { useFigureContent } from './useFigureContent.ts';

/** One photo or plot measured in two ways. */
export interface MethodPair {
  /** The photo or plot. */
  readonly label: string;
  /** Mean of both, in percent of ground. */
  readonly mean: number;
  /** First less second, in percentage points. */
  readonly difference: number;
}

export interface MethodDifferencesProps extends ChartWords {
  /** Name of the method subtracted from, and of the one subtracted. */
  readonly methods: readonly [first: string, second: string];
  readonly pairs: readonly MethodPair[];
  /** From `limitsOfAgreement`, on the scale of the pairs; null with fewer than two pairs. */
  readonly agreement: LimitsOfAgreement | null;
  /** Unit of the mean; differences are in points of it. @default '%' */
  readonly unit?: string;
}

/** Difference of two methods against their mean, with limits of agreement. */
export function MethodDifferences(props: MethodDifferencesProps) {
  return <Figure content={useFigureContent(methodDifferences, props)} {...props} />;
}

/** Unit of a difference of percentages. */
const POINTS = chartText.agreement.points;

export function methodDifferences(props: MethodDifferencesProps): FigureContent {
  const { methods, pairs, agreement, unit = '%' } = props;
  const text = chartText.agreement;
  const limits = agreement ? linesOf(agreement) : [];
  return {
    title: props.title,
    caption: [
      text.caption(...methods),
      text.n(pairs.length),
      agreement ? text.bands : text.noLimits,
      ...limits.map(({ name, words }) => `${name}: ${words}.`),
      ...(props.remarks ?? []),
    ],
    caution: cautionOf(props),
    table: {
      columns: [
        { head: chartText.columns.item, numeric: false },
        { head: chartText.columns.meanOfTwo(unit), numeric: true },
        { head: chartText.columns.difference(POINTS), numeric: true },
      ],
      rows: [
        ...pairs.map(({ label, mean, difference }) => [
          label,
          chartText.number(mean),
          chartText.number(difference),
        ]),
        ...limits.map(({ name, words }) => [name, '', words]),
      ],
    },
    draw: (size) => drawMethodDifferences(props, size),
  };
}

function linesOf({
  meanDifference,
  meanDifferenceInterval,
  limits,
  lowerLimitInterval,
  upperLimitInterval,
}: LimitsOfAgreement) {
  const text = chartText.agreement;
  return [
    { name: text.upper, value: limits[1], interval: upperLimitInterval, dash: '6 4' },
    { name: text.meanDifference, value: meanDifference, interval: meanDifferenceInterval, dash: undefined },
    { name: text.lower, value: limits[0], interval: lowerLimitInterval, dash: '6 4' },
  ].map((line) => ({ ...line, words: text.bounds(line.value, line.interval[0], line.interval[1]) }));
}

const LEADING = 1.2;

function drawMethodDifferences(props: MethodDifferencesProps, size: DrawingSize): Drawing {
  const { methods, pairs, agreement, unit = '%' } = props;
  const { widthPx, textPx } = size;
  const lines = agreement ? linesOf(agreement) : [];
  const beside = widthPx >= 480;
  const labelPx = beside
    ? Math.max(
        0,
        ...lines.flatMap(({ name, words }) => [textWidth(name, textPx, true), textWidth(words, textPx)]),
      ) + 14
    : 12;
  const layout = scatterLayout(size, {
    x: pairs.map(({ mean }) => mean),
    y: [...pairs.map(({ difference }) => difference), ...lines.flatMap(({ interval }) => [...interval])],
    zeroX: true,
    zeroY: true,
    rightPx: labelPx,
  });
  const { left, right } = layout;
  const points = pairs.map((pair) => ({
    pair,
    x: layout.x.at(pair.mean),
    y: layout.y.at(pair.difference),
  }));
  const shown = beside ? lines : [];
  const centres = spreadLabels(
    shown.map(({ value }) => layout.y.at(value)),
    shown.map(() => textPx * LEADING * 2 + 3),
    layout.top - textPx,
    layout.bottom + textPx,
  );
  return {
    widthPx,
    heightPx: layout.heightPx,
    marks: [...points]
      .sort((a, b) => a.x - b.x)
      .map(({ pair, x, y }, step) => ({
        x,
        y,
        series: 0,
        step,
        says: chartText.agreement.words(pair.label, pair.mean, pair.difference, unit, POINTS),
      })),
    content: (
      <ScatterPanel
        layout={layout}
        textPx={textPx}
        nameX={chartText.agreement.meanAxis(unit)}
        nameY={chartText.agreement.axis(methods[0], methods[1], POINTS)}
      >
        {lines.map(({ name, interval }) => (
          <rect
            key={name}
            x={left}
            width={round(right - left)}
            y={round(Math.min(layout.y.at(interval[0]), layout.y.at(interval[1])))}
            height={round(Math.abs(layout.y.at(interval[0]) - layout.y.at(interval[1])))}
            fill={paint.sunken}
            stroke={paint.line}
            data-part="band"
          />
        ))}
        {/* no difference, over the bands */}
        <line
          x1={left}
          x2={right}
          y1={round(layout.y.at(0))}
          y2={round(layout.y.at(0))}
          stroke={paint.strong}
          strokeWidth={1}
        />
        {lines.map(({ name, value, dash }) => (
          <line
            key={name}
            x1={left}
            x2={right}
            y1={round(layout.y.at(value))}
            y2={round(layout.y.at(value))}
            stroke={paint.ink}
            strokeWidth={1.5}
            strokeDasharray={dash}
            data-part="limit"
          />
        ))}
        {points.map(({ pair, x, y }) => (
          <Marker key={pair.label} x={x} y={y} look={POINT} radius={4} />
        ))}
        <g fontSize={textPx} fill={paint.ink}>
          {shown.map(({ name, words }, index) => (
            <g key={name}>
              <text x={round(right + 8)} y={round(centres[index]! - textPx * 0.25)} fontWeight={600}>
                {name}
              </text>
              <text x={round(right + 8)} y={round(centres[index]! + textPx * 0.95)}>
                {words}
              </text>
            </g>
          ))}
        </g>
      </ScatterPanel>
    ),
  };
}

const POINT = { colour: paint.ink, shape: 'circle', filled: false } as const;
