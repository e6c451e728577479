import { expect, test } from 'vitest';
import { nearestMark, walk } from '../../../src/app/charts/markWalk.ts';

/** Two treatments on three dates; the second was not rated on the middle one. */
const marks = [
  { x: 0, y: 10, series: 0, step: 0, says: 'a1' },
  { x: 50, y: 20, series: 0, step: 1, says: 'a2' },
  { x: 100, y: 30, series: 0, step: 2, says: 'a3' },
  { x: 0, y: 60, series: 1, step: 0, says: 'b1' },
  { x: 100, y: 80, series: 1, step: 2, says: 'b3' },
];

const walked = (keys: readonly string[]) =>
  keys.reduce<(typeof marks)[number] | null>((at, key) => {
    const next = walk(marks, at, key);
    return next === undefined ? at : next;
  }, null)?.says ?? null;

test('right and left go along a treatment, up and down between treatments', () => {
  expect(walked(['ArrowRight'])).toBe('a1');
  expect(walked(['ArrowRight', 'ArrowRight', 'ArrowRight'])).toBe('a3');
  expect(walked(['ArrowRight', 'ArrowDown', 'ArrowRight'])).toBe('b3');
  expect(walked(['End', 'ArrowLeft'])).toBe('b1');
  expect(walked(['End', 'ArrowUp'])).toBe('a3');
});

test('the ends hold, Home and End jump, Escape leaves', () => {
  expect(walked(['Home', 'ArrowLeft', 'ArrowUp'])).toBe('a1');
  expect(walked(['End', 'ArrowRight', 'ArrowDown'])).toBe('b3');
  expect(walked(['Home', 'Escape'])).toBe(null);
});

test('other keys are left to the page, and so is Escape where nothing is chosen', () => {
  expect(walk(marks, marks[0]!, 'x')).toBeUndefined();
  expect(walk(marks, null, 'Escape')).toBeUndefined();
  expect(walk([], null, 'ArrowRight')).toBe(null);
});

test('from a gap the nearest date is taken', () => {
  expect(walked(['Home', 'ArrowRight', 'ArrowDown'])).toBe('b1');
});

test('the pointer means the nearest mark within reach', () => {
  expect(nearestMark(marks, 95, 33)?.says).toBe('a3');
  expect(nearestMark(marks, 50, 300)).toBe(null);
});
