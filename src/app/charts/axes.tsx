import { formatDayTick } from '../../core/text/charts.ts';
import type { CalendarDay } from '../../core/trial/calendarDay.ts';
import { round } from './Marker.tsx';
import { paint } from './paint.ts';
import type { DayScale, ValueScale } from './scales.ts';
import { textWidth } from './textWidth.ts';

interface ValueAxisProps {
  readonly scale: ValueScale;
  /** Left and right edge of the panel. */
  readonly x: readonly [number, number];
  readonly textPx: number;
}

/** Level lines at the ticks, their numbers to the left; 0 is stronger. */
export function ValueAxis({ scale, x, textPx }: ValueAxisProps) {
  return (
    <g fontSize={textPx} fill={paint.soft} textAnchor="end">
      {scale.ticks.map(({ value, words }) => {
        const y = round(scale.at(value));
        return (
          <g key={value}>
            <line
              x1={x[0]}
              x2={x[1]}
              y1={y}
              y2={y}
              stroke={value === 0 ? paint.strong : paint.line}
              strokeWidth={1}
            />
            <text x={x[0] - 7} y={y + textPx * 0.35}>
              {words}
            </text>
          </g>
        );
      })}
    </g>
  );
}

interface BottomAxisProps {
  readonly scale: ValueScale;
  /** Top and bottom of the panel. */
  readonly y: readonly [number, number];
  readonly textPx: number;
}

/** Upright lines at the ticks, their numbers below. */
export function BottomAxis({ scale, y, textPx }: BottomAxisProps) {
  return (
    <g fontSize={textPx} fill={paint.soft} textAnchor="middle">
      {scale.ticks.map(({ value, words }) => {
        const x = round(scale.at(value));
        return (
          <g key={value}>
            <line
              x1={x}
              x2={x}
              y1={y[0]}
              y2={y[1]}
              stroke={value === 0 ? paint.strong : paint.line}
              strokeWidth={1}
            />
            <text x={x} y={y[1] + textPx * 1.4}>
              {words}
            </text>
          </g>
        );
      })}
    </g>
  );
}

interface DayAxisProps {
  readonly scale: DayScale;
  readonly days: readonly CalendarDay[];
  readonly y: number;
  readonly textPx: number;
  /** Left and right edge that words may reach. */
  readonly x: readonly [number, number];
}

/** A tick at each day, its date where there is room; the year stands below the first date and wherever it changes. */
export function DayAxis({ scale, days, y, textPx, x }: DayAxisProps) {
  const sorted = [...new Set(days)].sort();
  const shown = datesWithRoom(sorted, scale, textPx, x);
  let year = '';
  return (
    <g fontSize={textPx} fill={paint.soft} textAnchor="middle">
      {sorted.map((day) => (
        <line
          key={day}
          x1={round(scale.at(day))}
          x2={round(scale.at(day))}
          y1={y}
          y2={y + 5}
          stroke={paint.strong}
        />
      ))}
      {shown.map(({ day, centre }) => {
        const newYear = day.slice(0, 4) !== year;
        year = day.slice(0, 4);
        return (
          <g key={day}>
            <text x={round(centre)} y={y + 6 + textPx}>
              {formatDayTick(day)}
            </text>
            {newYear && (
              <text x={round(centre)} y={y + 6 + textPx * 2.2}>
                {year}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}

/** Height that the words of a day axis take. */
export const dayAxisHeight = (textPx: number): number => Math.ceil(textPx * 2.4 + 8);

/** First and last date, and between them as many as do not touch. */
function datesWithRoom(
  days: readonly CalendarDay[],
  scale: DayScale,
  textPx: number,
  x: readonly [number, number],
): { day: CalendarDay; centre: number }[] {
  const placed = days.map((day) => {
    const half = textWidth(formatDayTick(day), textPx) / 2 + textPx * 0.45;
    const centre = Math.min(Math.max(scale.at(day), x[0] + half), x[1] - half);
    return { day, centre, half };
  });
  const last = placed.at(-1);
  const kept: typeof placed = [];
  for (const one of placed) {
    const before = kept.at(-1);
    const clearOfBefore = !before || one.centre - one.half >= before.centre + before.half;
    const clearOfLast = one === last || !last || one.centre + one.half <= last.centre - last.half;
    if (clearOfBefore && (clearOfLast || kept.length === 0)) kept.push(one);
  }
  return kept;
}
