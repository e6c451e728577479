import { expect, test } from 'vitest';
import { measuredArea } from '../../../src/core/geometry/measuredArea.ts';
import { photoPoint } from '../../../src/core/geometry/points.ts';
import { labelAtPoint } from '../../../src/core/point-grid/labelAtPoint.ts';
import type { GapRule } from '../../../src/core/trial/trial.ts';
import { labelMaskFrom } from '../../support/labelMaskFrom.ts';

const EVERY_PIXEL: GapRule = { kind: 'every-pixel' };
const smallerThan = (smallerThanMm: number): GapRule => ({
  kind: 'small-patches-to-surroundings',
  smallerThanMm,
});
const BARE = 3;

/** 40 x 40 pixels, 2 mm each; bare spots of 2 x 2 and 10 x 10 pixels, and a crack one pixel wide. */
const picture = Array.from({ length: 40 }, (_, y) =>
  Array.from({ length: 40 }, (__, x) => {
    if (x >= 5 && x < 7 && y >= 5 && y < 7) return 'B';
    if (x >= 20 && x < 30 && y >= 20 && y < 30) return 'B';
    if (y === 35 && x > 2 && x < 38) return 'B';
    return x < 15 ? 'W' : 'R';
  }).join(''),
).join('/');
const mask = labelMaskFrom(picture);
const frame = {
  corners: [photoPoint(0, 0), photoPoint(40, 0), photoPoint(40, 40), photoPoint(0, 40)],
  sizeMm: [80, 80],
} as const;
const area = measuredArea(40, 40, { frame });
const at = (x: number, y: number, rule: GapRule) => labelAtPoint(mask, area, photoPoint(x, y), rule, BARE);

test('every pixel: the label under the point, 0 where nothing is measured', () => {
  expect(at(5.5, 5.5, EVERY_PIXEL)).toBe(BARE);
  expect(at(39.9, 0.1, EVERY_PIXEL)).toBe(1);
  expect(at(41, 3, EVERY_PIXEL)).toBe(0);
  expect(at(-0.5, 3, EVERY_PIXEL)).toBe(0);
});

test('bare patches narrower than the rule belong to what surrounds them, long cracks too', () => {
  expect(at(5.5, 5.5, smallerThan(8))).toBe(2);
  expect(at(20.5, 35.5, smallerThan(8))).toBe(1);
  expect(at(8.5, 35.5, smallerThan(8))).toBe(2);
});

test('patches the circle fits into stay bare, and other labels are never changed', () => {
  expect(at(25.5, 25.5, smallerThan(8))).toBe(BARE);
  expect(at(25.5, 25.5, smallerThan(30))).toBe(1);
  expect(at(10.5, 10.5, smallerThan(8))).toBe(2);
});

test('a patch wide enough is bare up to its sides', () => {
  expect(at(20.5, 25.5, smallerThan(8))).toBe(BARE);
});

test('without a scale a rule in mm cannot be followed', () => {
  const unscaled = measuredArea(40, 40, {});
  expect(labelAtPoint(mask, unscaled, photoPoint(5, 5), EVERY_PIXEL, BARE)).toBe(BARE);
  expect(() => labelAtPoint(mask, unscaled, photoPoint(5, 5), smallerThan(8), BARE)).toThrow(
    'frame needs a size',
  );
});
