import { expect, test } from 'vitest';
import { turnedCorners } from '../../../src/core/geometry/turnedCorners.ts';
import { corners } from '../frame/framedTurf.ts';

const square = corners([0, 0], [9, 0], [9, 9], [0, 9]);

test('a quarter clockwise puts the bottom left corner top left, and four quarters change nothing', () => {
  expect(turnedCorners(square, 1)).toEqual(corners([0, 9], [0, 0], [9, 0], [9, 9]));
  expect(turnedCorners(square, 3)).toEqual(corners([9, 0], [9, 9], [0, 9], [0, 0]));
  expect(turnedCorners(square, 0)).toEqual(square);
  expect(turnedCorners(square, 4)).toEqual(square);
});
