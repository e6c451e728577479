import type { Point, Quadrilateral } from './points.ts';

/** A projective map of the plane, row-major 3 x 3; any multiple is the same map. */
export type Homography = readonly [number, number, number, number, number, number, number, number, number];

/**
 * The homography that takes four corners to four others, its last entry 1, by the direct linear transform on exact pairs.
 *
 * @throws RangeError if three corners of one quadrilateral lie on a line, so that no such map exists
 * @see Hartley and Zisserman, Multiple View Geometry, chapter 4
 */
export function homographyBetween<From extends string, To extends string>(
  from: Quadrilateral<From>,
  to: Quadrilateral<To>,
): Homography {
  const rows: number[][] = [];
  for (let corner = 0; corner < 4; corner += 1) {
    const [x, y] = from[corner]!;
    const [u, v] = to[corner]!;
    rows.push([x, y, 1, 0, 0, 0, -u * x, -u * y, u], [0, 0, 0, x, y, 1, -v * x, -v * y, v]);
  }
  const [a, b, c, d, e, f, g, h] = solve(rows);
  return [a!, b!, c!, d!, e!, f!, g!, h!, 1];
}

/** Gaussian elimination with partial pivoting on an augmented system; writes to `rows`. */
function solve(rows: number[][]): number[] {
  const size = rows.length;
  for (let column = 0; column < size; column += 1) {
    let pivot = column;
    for (let row = column + 1; row < size; row += 1) {
      if (Math.abs(rows[row]![column]!) > Math.abs(rows[pivot]![column]!)) pivot = row;
    }
    if (Math.abs(rows[pivot]![column]!) < 1e-12) {
      throw new RangeError('no homography: three of the four corners lie on one line');
    }
    [rows[column], rows[pivot]] = [rows[pivot]!, rows[column]!];
    for (let row = 0; row < size; row += 1) {
      if (row === column) continue;
      const factor = rows[row]![column]! / rows[column]![column]!;
      for (let k = column; k <= size; k += 1) rows[row]![k]! -= factor * rows[column]![k]!;
    }
  }
  return rows.map((row, index) => row[size]! / row[index]!);
}

/** Where a point goes under the map. */
export function mapPoint<From extends string, To extends string>(
  homography: Homography,
  [x, y]: Point<From>,
): Point<To> {
  const [a, b, c, d, e, f, g, h, i] = homography;
  const scale = g * x + h * y + i;
  return [(a * x + b * y + c) / scale, (d * x + e * y + f) / scale] as unknown as Point<To>;
}

/** The map back. @throws RangeError if the map flattens the plane */
export function invertHomography(homography: Homography): Homography {
  const [a, b, c, d, e, f, g, h, i] = homography;
  const last = a * e - b * d;
  if (Math.abs(determinant(homography)) < 1e-15 || last === 0) {
    throw new RangeError('this homography has no inverse');
  }
  return [
    (e * i - f * h) / last,
    (c * h - b * i) / last,
    (b * f - c * e) / last,
    (f * g - d * i) / last,
    (a * i - c * g) / last,
    (c * d - a * f) / last,
    (d * h - e * g) / last,
    (b * g - a * h) / last,
    1,
  ];
}

export function determinant([a, b, c, d, e, f, g, h, i]: Homography): number {
  return a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
}
