import { type PhotoPoint, photoPoint, type Quadrilateral } from './points.ts';

/**
 * The rectangle of least area, turned as it may be, that holds all points, grown by a margin on every side.
 *
 * One side of it lies along an edge of the points' convex hull (Freeman and Shapira 1975, Commun. ACM 18:409).
 *
 * @param points at least one
 * @returns corners clockwise on screen, beginning at the one nearest to the top left of its box
 */
export function smallestRectangle(points: readonly PhotoPoint[], marginPx = 0): Quadrilateral<'photo'> {
  const hull = convexHull(points);
  let best: readonly PhotoPoint[] = [];
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < hull.length; i += 1) {
    const [ax, ay] = hull[i]!;
    const [bx, by] = hull[(i + 1) % hull.length]!;
    const length = Math.hypot(bx - ax, by - ay);
    const [ux, uy] = length > 0 ? [(bx - ax) / length, (by - ay) / length] : [1, 0];
    const along = hull.map(([x, y]) => x * ux + y * uy);
    const across = hull.map(([x, y]) => y * ux - x * uy);
    const [left, right] = [Math.min(...along) - marginPx, Math.max(...along) + marginPx];
    const [top, bottom] = [Math.min(...across) - marginPx, Math.max(...across) + marginPx];
    const area = (right - left) * (bottom - top);
    if (area >= least) continue;
    least = area;
    const at = (u: number, v: number) => photoPoint(u * ux - v * uy, u * uy + v * ux);
    best = [at(left, top), at(right, top), at(right, bottom), at(left, bottom)];
  }
  const sums = best.map(([x, y]) => x + y);
  const first = sums.indexOf(Math.min(...sums));
  return [0, 1, 2, 3].map((k) => best[(first + k) % 4]!) as unknown as Quadrilateral<'photo'>;
}

/** Clockwise on screen, without points on its edges (Andrew 1979, Inf. Process. Lett. 9:216). */
function convexHull(points: readonly PhotoPoint[]): readonly PhotoPoint[] {
  const sorted = points.toSorted((a, b) => a[0] - b[0] || a[1] - b[1]);
  if (sorted.length < 3) return sorted;
  const half = (list: readonly PhotoPoint[]) => {
    const chain: PhotoPoint[] = [];
    for (const point of list) {
      while (chain.length > 1 && turn(chain.at(-2)!, chain.at(-1)!, point) <= 0) chain.pop();
      chain.push(point);
    }
    return chain.slice(0, -1);
  };
  const hull = [...half(sorted), ...half(sorted.toReversed())];
  return hull.length > 0 ? hull : sorted.slice(0, 1);
}

const turn = ([ax, ay]: PhotoPoint, [bx, by]: PhotoPoint, [cx, cy]: PhotoPoint): number =>
  (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
