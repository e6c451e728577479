import { expect, test } from 'vitest';
import { polygonAreaPx } from '../../../src/core/geometry/plotFrame.ts';
import { type PhotoPoint, photoPoint } from '../../../src/core/geometry/points.ts';
import { smallestRectangle } from '../../../src/core/geometry/smallestRectangle.ts';
import { seededRandom } from '../../support/seededRandom.ts';

/** A rectangle of 40 x 20 about (100, 60), turned; with points strewn inside it. */
function turnedRectangle(degrees: number, inside: number): PhotoPoint[] {
  const random = seededRandom(3);
  const angle = (degrees * Math.PI) / 180;
  const at = (u: number, v: number) =>
    photoPoint(
      100 + u * Math.cos(angle) - v * Math.sin(angle),
      60 + u * Math.sin(angle) + v * Math.cos(angle),
    );
  const corners = [at(-20, -10), at(20, -10), at(20, 10), at(-20, 10)];
  const strewn = Array.from({ length: inside }, () => at(40 * random() - 20, 20 * random() - 10));
  return [...strewn, ...corners];
}

test.each([0, 17, 45, 80])(
  'a rectangle turned by %s degrees is found again, grown by the margin',
  (degrees) => {
    const points = turnedRectangle(degrees, 50);
    const bare = smallestRectangle(points);
    expect(polygonAreaPx(bare)).toBeCloseTo(800, 6);
    for (const corner of points.slice(-4)) {
      const near = bare.map(([x, y]) => Math.hypot(x - corner[0], y - corner[1]));
      expect(Math.min(...near)).toBeLessThan(1e-9);
    }
    expect(polygonAreaPx(smallestRectangle(points, 3))).toBeCloseTo(46 * 26, 6);
  },
);

test('corners run clockwise from the one nearest to the top left', () => {
  const [first, second] = smallestRectangle(turnedRectangle(5, 0));
  expect(first[0] + first[1]).toBeLessThan(second[0] + second[1]);
  expect(second[0]).toBeGreaterThan(first[0]);
});

test('points on one line and a single point make a rectangle of the margin alone', () => {
  const line = [photoPoint(0, 0), photoPoint(10, 0), photoPoint(5, 0)];
  expect(Math.abs(polygonAreaPx(smallestRectangle(line, 1)))).toBeCloseTo(24, 9);
  expect(Math.abs(polygonAreaPx(smallestRectangle([photoPoint(3, 4)], 2)))).toBeCloseTo(16, 9);
});
