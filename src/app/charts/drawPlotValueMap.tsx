import { chartText, formatDecimals } from '../../core/text/charts.ts';
import { inkOn } from '../canvas/colours.ts';
import type { Drawing, DrawingSize } from './drawing.ts';
import { round } from './Marker.tsx';
import { paint } from './paint.ts';
import type { PlotValueMapProps } from './plotValueMapProps.ts';
import { valueScale } from './scales.ts';
import { shade } from './shade.ts';
import { textWidth } from './textWidth.ts';

const GAP = 2;
const NAMES_FROM_PX = 46;
const VALUES_FROM_PX = 13;

export function drawPlotValueMap(props: PlotValueMapProps, size: DrawingSize): Drawing {
  const { plots, quantity, plotAspect = 1 } = props;
  const { widthPx, textPx } = size;
  const columns = Math.max(1, ...plots.map(({ column }) => column));
  const rows = Math.max(1, ...plots.map(({ row }) => row));
  const top = textPx * 3.6;
  const widest = Math.min(widthPx / columns, 140);
  const wanted = Math.min(Math.max(widest * plotAspect, 26), 110);
  const room = size.heightPx === null ? Number.POSITIVE_INFINITY : (size.heightPx - top) / rows;
  const cellHeight = Math.max(8, Math.min(wanted, room));
  const cellWidth = widest;
  const known = plots.flatMap(({ value }) => (value === null ? [] : [value]));
  const keyPx = Math.min(260, widthPx * 0.6);
  const scale = valueScale(props.bounds ?? known, {
    pixels: [0, keyPx],
    range: quantity.range ?? 'tight',
    apartPx: 60,
  });
  const shareOf = (value: number) => scale.at(value) / keyPx;
  const cells = plots.map((plot) => ({
    ...plot,
    x: (plot.column - 1) * cellWidth,
    y: top + (rows - plot.row) * cellHeight,
  }));
  const edge = cells.length > 0;
  return {
    widthPx,
    heightPx: Math.ceil(top + rows * cellHeight + (edge ? 2 : 0)),
    marks: cells.map(({ plot, treatment, block, value, row, column, x, y }) => ({
      x: x + cellWidth / 2,
      y: y + cellHeight / 2,
      series: rows - row,
      step: column,
      says: chartText.map.words(plot, treatment, block, value, quantity.unit),
    })),
    content: (
      <g>
        <ShadeKey
          scale={scale}
          widthPx={keyPx}
          textPx={textPx}
          name={chartText.axis(quantity.name, quantity.unit)}
        />
        {cells.map(({ plot, treatment, value, x, y }) => {
          const fill = value === null ? paint.sheet : shade(shareOf(value));
          const ink = value === null ? paint.ink : inkOn(fill);
          const inner = { width: round(cellWidth - GAP), height: round(cellHeight - GAP) };
          const named = cellWidth >= NAMES_FROM_PX && cellHeight >= textPx * 2.6;
          const words = value === null ? '–' : valueWords(value, cellWidth, textPx);
          const valuePx = Math.min(
            named ? textPx * 1.25 : textPx,
            (cellWidth - GAP - 2) / Math.max(1, textWidth(words, 1)),
            cellHeight - GAP - 1,
          );
          return (
            <g key={plot} data-plot={plot}>
              <rect
                x={round(x)}
                y={round(y)}
                {...inner}
                fill={fill}
                stroke={value === null ? paint.strong : 'none'}
                data-part="plot"
              />
              {value === null && <Hatching x={x} y={y} {...inner} />}
              {named && (
                <g fontSize={textPx * 0.88} fill={ink}>
                  <text x={round(x + 6)} y={round(y + textPx * 1.15)}>
                    {plot}
                  </text>
                  <text x={round(x + inner.width - 6)} y={round(y + textPx * 1.15)} textAnchor="end">
                    {treatment}
                  </text>
                </g>
              )}
              {cellWidth >= VALUES_FROM_PX && (
                <text
                  x={round(x + inner.width / 2)}
                  y={round(y + inner.height / 2 + valuePx * 0.36 + (named ? textPx * 0.5 : 0))}
                  fontSize={round(valuePx)}
                  fontWeight={600}
                  textAnchor="middle"
                  fill={ink}
                >
                  {words}
                </text>
              )}
            </g>
          );
        })}
      </g>
    ),
  };
}

/** One decimal where a plot is wide enough for it. */
const valueWords = (value: number, widthPx: number, textPx: number): string =>
  formatDecimals(value, widthPx >= textPx * 3.2 ? 1 : 0);

/** Slanting lines over a plot without a value, within its edges. */
function Hatching({ x, y, width, height }: { x: number; y: number; width: number; height: number }) {
  const lines: string[] = [];
  for (let start = 6; start < width + height; start += 8) {
    const from = [Math.min(start, width), Math.max(0, start - width)] as const;
    const to = [Math.max(0, start - height), Math.min(start, height)] as const;
    lines.push(`M${round(x + from[0])} ${round(y + from[1])}L${round(x + to[0])} ${round(y + to[1])}`);
  }
  return <path d={lines.join('')} stroke={paint.line} strokeWidth={1} fill="none" />;
}

interface ShadeKeyProps {
  readonly scale: ReturnType<typeof valueScale>;
  readonly widthPx: number;
  readonly textPx: number;
  readonly name: string;
}

const STEPS = 24;

function ShadeKey({ scale, widthPx, textPx, name }: ShadeKeyProps) {
  return (
    <g fontSize={textPx} fill={paint.ink}>
      <text x={0} y={textPx} fontWeight={600}>
        {name}
      </text>
      {Array.from({ length: STEPS }, (_, step) => (
        <rect
          // biome-ignore lint/suspicious/noArrayIndexKey: steps of a scale
          key={step}
          x={round((step * widthPx) / STEPS)}
          y={round(textPx * 1.5)}
          width={round(widthPx / STEPS + 0.5)}
          height={round(textPx * 0.6)}
          fill={shade((step + 0.5) / STEPS)}
        />
      ))}
      {scale.ticks.map(({ value, words }, index) => (
        <text
          key={value}
          x={round(scale.at(value))}
          y={round(textPx * 3)}
          fontSize={textPx * 0.88}
          fill={paint.soft}
          textAnchor={index === 0 ? 'start' : 'middle'}
        >
          {words}
        </text>
      ))}
    </g>
  );
}
