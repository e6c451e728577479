import { expect, test } from 'vitest';
import {
  aspectOf,
  ontoBox,
  projectiveTransform,
  scaleBarMm,
} from '../../../src/app/canvas/projectiveTransform.ts';
import { mapPoint } from '../../../src/core/geometry/homography.ts';
import { corners } from '../../core/frame/framedTurf.ts';

const seen = corners([120, 80], [470, 95], [452, 400], [100, 380]);

/** Where a CSS transform takes a point of the element: CSS Transforms 2, 13: columns of the matrix in turn. */
function transformed(css: string, x: number, y: number) {
  const m = css.slice('matrix3d('.length, -1).split(',').map(Number);
  const row = (k: number) => m[k]! * x + m[4 + k]! * y + m[12 + k]!;
  return [row(0) / row(3), row(1) / row(3)];
}

test('the transform lays the corners on the box, and every point where the homography does', () => {
  const map = ontoBox(seen, 300, 200);
  const css = projectiveTransform(map);
  for (const [k, [x, y]] of [
    [0, 0],
    [300, 0],
    [300, 200],
    [0, 200],
  ].entries()) {
    const [u, v] = transformed(css, seen[k]![0], seen[k]![1]);
    expect(u).toBeCloseTo(x!, 8);
    expect(v).toBeCloseTo(y!, 8);
  }
  const middle = mapPoint(map, seen[0]);
  expect(transformed(css, ...(seen[0] as readonly [number, number]))[0]).toBeCloseTo(middle[0], 8);
});

test('proportions are the true ones, else as seen; a quarter turns them', () => {
  expect(aspectOf(seen, [500, 250])).toBe(2);
  expect(aspectOf(seen, [500, 250], 1)).toBe(0.5);
  expect(aspectOf(corners([0, 0], [80, 0], [80, 40], [0, 40]), null)).toBe(2);
});

test('a scale bar is 1, 2 or 5 times a power of ten', () => {
  expect([1, 3.9, 49, 150, 999].map(scaleBarMm)).toEqual([1, 2, 20, 100, 500]);
});
