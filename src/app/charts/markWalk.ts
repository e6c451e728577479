import type { Mark } from './drawing.ts';

/** How far from a mark the pointer still means it. */
const REACH = 36;

/**
 * Where a key leads from a mark.
 *
 * @returns null to leave the marks, undefined for a key that means nothing here
 */
export function walk(marks: readonly Mark[], at: Mark | null, key: string): Mark | null | undefined {
  if (key === 'Escape') return at === null ? undefined : null;
  if (!WALKING.has(key)) return undefined;
  if (at === null || key === 'Home' || key === 'End') {
    const ordered = [...marks].sort((a, b) => a.series - b.series || a.step - b.step);
    return (key === 'End' ? ordered.at(-1) : ordered[0]) ?? null;
  }
  const along = key === 'ArrowLeft' || key === 'ArrowRight';
  const onwards = key === 'ArrowRight' || key === 'ArrowDown';
  return (along ? alongSeries(marks, at, onwards) : acrossSeries(marks, at, onwards)) ?? at;
}

const WALKING = new Set(['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown', 'Home', 'End']);

function alongSeries(marks: readonly Mark[], at: Mark, onwards: boolean): Mark | undefined {
  return nearest(
    marks.filter(({ series, step }) => series === at.series && (onwards ? step > at.step : step < at.step)),
    ({ step }) => Math.abs(step - at.step),
  );
}

/** The next series that there is, at the step nearest to this one. */
function acrossSeries(marks: readonly Mark[], at: Mark, onwards: boolean): Mark | undefined {
  const others = marks.filter(({ series }) => (onwards ? series > at.series : series < at.series));
  const next = nearest(others, ({ series }) => Math.abs(series - at.series));
  if (!next) return undefined;
  return nearest(
    others.filter(({ series }) => series === next.series),
    ({ step }) => Math.abs(step - at.step),
  );
}

/** The mark that a pointer means; null where none is near. */
export function nearestMark(marks: readonly Mark[], x: number, y: number): Mark | null {
  const best = nearest(marks, (mark) => Math.hypot(mark.x - x, mark.y - y));
  return best && Math.hypot(best.x - x, best.y - y) <= REACH ? best : null;
}

function nearest(marks: readonly Mark[], distance: (mark: Mark) => number): Mark | undefined {
  let best: Mark | undefined;
  let least = Number.POSITIVE_INFINITY;
  for (const mark of marks) {
    const away = distance(mark);
    if (away < least) {
      least = away;
      best = mark;
    }
  }
  return best;
}
