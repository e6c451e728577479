import type { ChartTreatment } from './chartTypes.ts';
import { nameOf } from './figureWords.ts';
import { Marker, round } from './Marker.tsx';
import { paint } from './paint.ts';
import { spreadLabels } from './spreadLabels.ts';
import { textWidth, wrapText } from './textWidth.ts';
import { treatmentStyle } from './treatmentStyle.ts';

const LEADING = 1.2;
/** From this width on, and up to so many treatments, names stand at the ends of lines; else numbers there and a key below. */
const ROOM_FOR_NAMES = 560;
const NAMES_AT_ENDS = 6;

/** Whether names of treatments fit beside their lines. */
export const namesFit = (widthPx: number, treatments: number): boolean =>
  widthPx >= ROOM_FOR_NAMES && treatments <= NAMES_AT_ENDS;

/** Width of the column of labels right of the lines. */
export function labelColumn(treatments: readonly ChartTreatment[], widthPx: number, textPx: number): number {
  const full = namesFit(widthPx, treatments.length);
  const widest = Math.max(
    0,
    ...treatments.map((one) => textWidth(full ? nameOf(one) : one.treatment, textPx, true)),
  );
  return Math.ceil(Math.min(widest, widthPx * 0.27)) + 22;
}

interface EndLabelsProps {
  readonly treatments: readonly ChartTreatment[];
  /** Last point of each treatment's line; null where it has none. */
  readonly ends: readonly (readonly [x: number, y: number] | null)[];
  /** Left edge of the column of labels and its width. */
  readonly x: number;
  readonly widthPx: number;
  /** Whether names are written out. */
  readonly full: boolean;
  readonly y: readonly [top: number, bottom: number];
  readonly textPx: number;
}

/** Labels at the ends of lines, moved apart where they would overlap, tied to their line where they were moved. */
export function EndLabels({ treatments, ends, x, widthPx, full, y, textPx }: EndLabelsProps) {
  const labels = treatments.flatMap((treatment, place) => {
    const end = ends[place];
    if (!end) return [];
    const words = full ? nameOf(treatment) : treatment.treatment;
    return [{ place, end, lines: wrapText(words, widthPx - 22, textPx, full ? 4 : 1) }];
  });
  const heights = labels.map(({ lines }) => lines.length * textPx * LEADING + 4);
  const centres = spreadLabels(
    labels.map(({ end }) => end[1]),
    heights,
    y[0] - textPx * 0.7,
    y[1] + textPx * 0.7,
  );
  return (
    <g fontSize={textPx} fill={paint.ink}>
      {labels.map(({ place, end, lines }, index) => {
        const centre = centres[index]!;
        const { colour } = treatmentStyle(place);
        const first = centre - ((lines.length - 1) * textPx * LEADING) / 2 + textPx * 0.35;
        return (
          <g key={place}>
            <path
              d={`M${round(end[0] + 8)} ${round(end[1])}L${round(Math.max(x + 2, end[0] + 10))} ${round(centre)}H${round(x + 8)}`}
              fill="none"
              stroke={colour}
              strokeWidth={1}
            />
            {lines.map((line, row) => (
              <text
                key={line}
                x={round(x + 13)}
                y={round(first + row * textPx * LEADING)}
                fontWeight={row === 0 && !full ? 600 : 400}
              >
                {line}
              </text>
            ))}
          </g>
        );
      })}
    </g>
  );
}

/** Lines of a key in columns, as high as {@link keyHeight} says. */
export function TreatmentKey({
  treatments,
  widthPx,
  textPx,
  x,
  y,
  lines: withLines = true,
}: TreatmentKeyProps) {
  const { columns, columnPx, rows } = keyLayout({ treatments, widthPx, textPx });
  let top = y;
  return (
    <g fontSize={textPx} fill={paint.ink}>
      {rows.map((row) => {
        const rowTop = top;
        top += rowHeight(row, textPx);
        return row.map(({ place, lines }, column) => {
          const left = x + column * columnPx;
          const look = treatmentStyle(place);
          const base = rowTop + textPx;
          return (
            <g key={place} data-columns={columns}>
              {withLines && (
                <line
                  x1={round(left)}
                  x2={round(left + 26)}
                  y1={round(base - textPx * 0.35)}
                  y2={round(base - textPx * 0.35)}
                  stroke={look.colour}
                  strokeWidth={2}
                  strokeDasharray={look.dash}
                />
              )}
              <Marker x={left + 13} y={base - textPx * 0.35} look={look} radius={4.5} />
              {lines.map((line, index) => (
                <text key={line} x={round(left + 34)} y={round(base + index * textPx * LEADING)}>
                  {line}
                </text>
              ))}
            </g>
          );
        });
      })}
    </g>
  );
}

interface TreatmentKeyProps extends KeyProps {
  readonly x: number;
  readonly y: number;
  /** Whether the line of a treatment is shown. @default true */
  readonly lines?: boolean;
}

interface KeyProps {
  readonly treatments: readonly ChartTreatment[];
  readonly widthPx: number;
  readonly textPx: number;
}

export const keyHeight = (props: KeyProps): number =>
  Math.ceil(keyLayout(props).rows.reduce((sum, row) => sum + rowHeight(row, props.textPx), 0));

const rowHeight = (row: readonly { readonly lines: readonly string[] }[], textPx: number): number =>
  Math.max(...row.map(({ lines }) => lines.length)) * textPx * LEADING + textPx * 0.5;

function keyLayout({ treatments, widthPx, textPx }: KeyProps) {
  const widest = Math.max(0, ...treatments.map((one) => textWidth(nameOf(one), textPx))) + 50;
  const columns = Math.max(1, Math.min(4, treatments.length, Math.floor(widthPx / Math.min(widest, 260))));
  const columnPx = widthPx / columns;
  const entries = treatments.map((one, place) => ({
    place,
    lines: wrapText(nameOf(one), columnPx - 44, textPx, 3),
  }));
  const rows = Array.from({ length: Math.ceil(entries.length / columns) }, (_, row) =>
    entries.slice(row * columns, (row + 1) * columns),
  );
  return { columns, columnPx, rows };
}
