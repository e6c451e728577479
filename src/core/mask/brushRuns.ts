import type { VisitRun } from '../geometry/pixelRuns.ts';
import type { PhotoPoint } from '../geometry/points.ts';

/** Where the brush is and how large. */
export interface BrushPoint {
  readonly at: PhotoPoint;
  /** 0 for a single pixel; a brush is never thinner than one. */
  readonly radiusPx: number;
}

/** Half a pixel: with it a thin line has no gap, since every line passes a centre at least this close in each row or column. */
const LEAST_RADIUS_PX = 0.5;

/**
 * Visits the pixels that a round brush covers on its straight way between two points, clipped to the photo.
 *
 * A pixel is covered when its centre lies within the radius of the way, where the radius changes evenly from one
 * point to the other; the pixels under the two points always are. At most one run a row.
 *
 * @throws RangeError if a coordinate or radius is not a finite number, or a radius is negative
 */
export function forEachBrushRun(
  from: BrushPoint,
  to: BrushPoint,
  widthPx: number,
  heightPx: number,
  visit: VisitRun,
): void {
  for (const { at, radiusPx } of [from, to]) {
    if (!(Number.isFinite(at[0]) && Number.isFinite(at[1]) && radiusPx >= 0 && radiusPx < 65536)) {
      throw new RangeError(
        `a brush needs finite coordinates and a radius from 0 px, got ${at[0]}, ${at[1]}, radius ${radiusPx}`,
      );
    }
  }
  const [ax, ay] = from.at;
  const [bx, by] = to.at;
  const aRadius = Math.max(from.radiusPx, LEAST_RADIUS_PX);
  const bRadius = Math.max(to.radiusPx, LEAST_RADIUS_PX);
  const sides = tangents(ax, ay, aRadius, bx, by, bRadius);
  const highest = Math.floor(Math.min(ay - aRadius, by - bRadius));
  const lowest = Math.ceil(Math.max(ay + aRadius, by + bRadius));
  const top = Math.max(0, highest);
  const bottom = Math.min(heightPx, Math.max(lowest, Math.floor(Math.max(ay, by)) + 1));
  for (let row = top; row < bottom; row += 1) {
    const y = row + 0.5;
    let left = Number.POSITIVE_INFINITY;
    let right = Number.NEGATIVE_INFINITY;
    // the covered shape is convex, so its part in a row is one run from the leftmost to the rightmost of its pieces
    const aReach = aRadius * aRadius - (y - ay) * (y - ay);
    if (aReach >= 0) {
      left = ax - Math.sqrt(aReach);
      right = ax + Math.sqrt(aReach);
    }
    const bReach = bRadius * bRadius - (y - by) * (y - by);
    if (bReach >= 0) {
      left = Math.min(left, bx - Math.sqrt(bReach));
      right = Math.max(right, bx + Math.sqrt(bReach));
    }
    for (let i = 0; i < sides.length; i += 4) {
      const y0 = sides[i + 1]!;
      const y1 = sides[i + 3]!;
      if (y < Math.min(y0, y1) || y > Math.max(y0, y1) || y0 === y1) continue;
      const x = sides[i]! + ((y - y0) / (y1 - y0)) * (sides[i + 2]! - sides[i]!);
      left = Math.min(left, x);
      right = Math.max(right, x);
    }
    // columns whose centre lies in [left, right], and the pixels under the points
    let first = left <= right ? Math.ceil(left - 0.5) : Number.POSITIVE_INFINITY;
    let end = left <= right ? Math.floor(right - 0.5) + 1 : Number.NEGATIVE_INFINITY;
    if (Math.floor(ay) === row) {
      first = Math.min(first, Math.floor(ax));
      end = Math.max(end, Math.floor(ax) + 1);
    }
    if (Math.floor(by) === row) {
      first = Math.min(first, Math.floor(bx));
      end = Math.max(end, Math.floor(bx) + 1);
    }
    first = Math.max(0, first);
    end = Math.min(widthPx, end);
    if (first < end) visit(row, first, end);
  }
}

/** The two common outer tangents of two discs, x and y of both ends; none where one disc holds the other. */
function tangents(ax: number, ay: number, ar: number, bx: number, by: number, br: number): readonly number[] {
  const [dx, dy] = [bx - ax, by - ay];
  const squared = dx * dx + dy * dy;
  if (squared <= (ar - br) * (ar - br)) return [];
  // the unit normals of the tangents are along * d + across * (d turned a quarter)
  const along = (ar - br) / squared;
  const across = Math.sqrt(squared - (ar - br) * (ar - br)) / squared;
  return [1, -1].flatMap((side) => {
    const nx = along * dx - side * across * dy;
    const ny = along * dy + side * across * dx;
    return [ax + ar * nx, ay + ar * ny, bx + br * nx, by + br * ny];
  });
}
