import { expect, test } from 'vitest';
import { frameProblem, polygonAreaPx, wholePhoto } from '../../../src/core/geometry/plotFrame.ts';
import { photoPoint, type Quadrilateral } from '../../../src/core/geometry/points.ts';

const quad = (...corners: [number, number][]) =>
  corners.map(([x, y]) => photoPoint(x, y)) as unknown as Quadrilateral<'photo'>;

test.each<[string, Quadrilateral<'photo'>, string | null]>([
  ['a square', quad([10, 10], [90, 10], [90, 90], [10, 90]), null],
  ['the whole photo', wholePhoto(100, 100), null],
  ['a corner left of the photo', quad([-1, 10], [90, 10], [90, 90], [10, 90]), 'frame-corner-outside'],
  [
    'a corner that is not a number',
    quad([Number.NaN, 10], [90, 10], [90, 90], [10, 90]),
    'frame-corner-outside',
  ],
  ['crossed corners', quad([10, 10], [90, 90], [90, 10], [10, 90]), 'frame-corners-crossed'],
  ['corners the wrong way round', quad([10, 10], [10, 90], [90, 90], [90, 10]), 'frame-corners-crossed'],
  ['a corner pushed in', quad([10, 10], [90, 10], [40, 40], [10, 90]), 'frame-corners-crossed'],
  ['all corners in one place', quad([10, 10], [10, 10], [10, 10], [10, 10]), 'frame-corners-crossed'],
  ['a frame seen from the side', quad([45, 10], [55, 10], [100, 90], [0, 90]), 'frame-too-slanted'],
  ['almost a triangle', quad([0, 0], [100, 0], [50.0001, 37.5], [0, 75]), 'frame-too-slanted'],
  ['a tiny frame', quad([10, 10], [20, 10], [20, 20], [10, 20]), 'frame-too-small'],
])('%s', (_, corners, code) => {
  expect(frameProblem(corners, 100, 100)?.code ?? null).toBe(code);
});

test('area by hand: a trapezium of parallel sides 6 and 4, height 3', () => {
  expect(polygonAreaPx([photoPoint(0, 0), photoPoint(6, 0), photoPoint(5, 3), photoPoint(1, 3)])).toBe(15);
});
