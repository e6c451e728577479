import type { Quadrilateral } from './points.ts';

/** The same corners named from another side: turned by so many quarters, clockwise. */
export function turnedCorners(corners: Quadrilateral<'photo'>, quarters: number): Quadrilateral<'photo'> {
  return corners.map((_, k) => corners[(k + 4 - (quarters % 4)) % 4]!) as unknown as Quadrilateral<'photo'>;
}
