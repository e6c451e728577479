import { expect, test } from 'vitest';
import {
  determinant,
  homographyBetween,
  invertHomography,
  mapPoint,
} from '../../../src/core/geometry/homography.ts';
import { photoPoint, plotPoint, type Quadrilateral } from '../../../src/core/geometry/points.ts';
// direct linear transform solved in R, source inside the file
import reference from '../../reference-values/homography.json' with { type: 'json' };

const quad = (corners: number[][]) =>
  corners.map(([x, y]) => photoPoint(x!, y!)) as unknown as Quadrilateral<'photo'>;

test.each(reference.cases)('$name equals the reference', ({ from, to, H_row_major, checks }) => {
  const map = homographyBetween(quad(from), quad(to));
  H_row_major.flat().forEach((value, i) => {
    expect(map[i]!).toBeCloseTo(value, 9);
  });
  for (const check of checks ?? []) {
    const [x, y] = mapPoint(map, photoPoint(check.from[0]!, check.from[1]!));
    expect(x).toBeCloseTo(check.to[0]!, 7);
    expect(y).toBeCloseTo(check.to[1]!, 7);
  }
});

test('there and back is where one was', () => {
  const map = homographyBetween(quad(reference.cases[0]!.from), quad(reference.cases[0]!.to));
  const [x, y] = mapPoint(invertHomography(map), mapPoint(map, photoPoint(333, 444)));
  expect(x).toBeCloseTo(333, 9);
  expect(y).toBeCloseTo(444, 9);
  expect(determinant(map)).toBeGreaterThan(0);
});

test('three corners on a line have no homography', () => {
  const flat = quad([
    [0, 0],
    [5, 5],
    [10, 10],
    [0, 10],
  ]);
  const unit = [plotPoint(0, 0), plotPoint(1, 0), plotPoint(1, 1), plotPoint(0, 1)] as const;
  expect(() => homographyBetween(flat, unit)).toThrow(/three of the four corners lie on one line/);
});
