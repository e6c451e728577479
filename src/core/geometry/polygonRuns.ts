import type { VisitRun } from './pixelRuns.ts';
import type { PhotoPoint } from './points.ts';

/**
 * Visits the pixels of a polygon, row by row from the top, clipped to the photo.
 *
 * A pixel belongs to a polygon when its centre lies inside (even-odd rule, so a line that crosses itself leaves
 * holes). A centre on the edge belongs to the polygon on its right or below, so neighbours share no pixel.
 * The polygon is closed by itself. Cost: the rows its edges span plus the runs.
 */
export function forEachPolygonRun(
  polygon: readonly PhotoPoint[],
  widthPx: number,
  heightPx: number,
  visit: VisitRun,
): void {
  let [highest, lowest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const [x, y] of polygon) {
    if (!Number.isFinite(x) || !Number.isFinite(y)) {
      throw new RangeError(`polygon corners must be finite numbers, got ${x}, ${y}`);
    }
    highest = Math.min(highest, y);
    lowest = Math.max(lowest, y);
  }
  const top = Math.max(0, Math.floor(highest));
  const bottom = Math.min(heightPx, Math.ceil(lowest));
  if (top >= bottom) return;
  // where the edges cross the middle of each row
  const crossings: number[][] = Array.from({ length: bottom - top }, () => []);
  for (let i = 0; i < polygon.length; i += 1) {
    const [ax, ay] = polygon[i]!;
    const [bx, by] = polygon[(i + 1) % polygon.length]!;
    const first = Math.max(top, Math.floor(Math.min(ay, by)));
    const end = Math.min(bottom, Math.ceil(Math.max(ay, by)));
    for (let row = first; row < end; row += 1) {
      const y = row + 0.5;
      if (ay <= y !== by <= y) crossings[row - top]!.push(ax + ((y - ay) / (by - ay)) * (bx - ax));
    }
  }
  for (let row = top; row < bottom; row += 1) {
    const at = crossings[row - top]!.sort((a, b) => a - b);
    for (let i = 0; i + 1 < at.length; i += 2) {
      // columns whose centre lies in [from, to)
      const from = Math.max(0, Math.ceil(at[i]! - 0.5));
      const to = Math.min(widthPx, Math.ceil(at[i + 1]! - 0.5));
      if (from < to) visit(row, from, to);
    }
  }
}
