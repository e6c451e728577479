import { expect, test } from 'vitest';
import { measuredArea } from '../../../src/core/geometry/measuredArea.ts';
import { photoPoint } from '../../../src/core/geometry/points.ts';
import { labelAtPoint } from '../../../src/core/point-grid/labelAtPoint.ts';
import { labelMaskFrom } from '../../support/labelMaskFrom.ts';

const mask = labelMaskFrom('RRRR/RWBR/RRRR');
const area = measuredArea(4, 3, {
  ignored: [[photoPoint(0, 0), photoPoint(1, 0), photoPoint(1, 1), photoPoint(0, 1)]],
});
const at = (x: number, y: number) => labelAtPoint(mask, area, photoPoint(x, y));

test('the label of the pixel the point lies in', () => {
  expect([at(1, 1), at(1.99, 1.99), at(2, 1), at(3.9, 2.9)]).toEqual([2, 2, 3, 1]);
});

test('0 where nothing is measured: outside the photo, and in what is left out', () => {
  expect([at(-0.5, 1), at(4, 1), at(1, 3.1), at(0.5, 0.5)]).toEqual([0, 0, 0, 0]);
});
