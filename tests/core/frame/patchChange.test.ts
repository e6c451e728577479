import { expect, test } from 'vitest';
import { patchChange } from '../../../src/core/frame/patchChange.ts';
import { patchCover } from '../../../src/core/frame/patchCover.ts';
import { homographyBetween, mapPoint } from '../../../src/core/geometry/homography.ts';
import { measuredArea } from '../../../src/core/geometry/measuredArea.ts';
import { photoPoint, type Quadrilateral } from '../../../src/core/geometry/points.ts';
import type { LabelMask } from '../../../src/core/raster/labelMask.ts';
import { labelMaskFrom } from '../../support/labelMaskFrom.ts';
import { corners } from './framedTurf.ts';

const square = corners([0, 0], [4, 0], [4, 4], [0, 4]);
const grid = { columns: 2, rows: 2 };

/** Patches of a mask that the frame covers wholly, without the frame problem of tiny pictures. */
function patchesOf(mask: LabelMask) {
  return patchCover(mask, measuredArea(mask.widthPx, mask.heightPx), square, 3, grid);
}

test('two dates counted by hand', () => {
  const before = patchesOf(labelMaskFrom('RRWW/RRWW/RBRR/RBRR'));
  const after = patchesOf(labelMaskFrom('RWWW/RWWB/RBRR/RBRR'));
  expect([...before.pixels]).toEqual([4, 4, 4, 4]);
  const { classes, patchesCompared, changes } = patchChange(before, after);
  expect(patchesCompared).toBe(4);
  // ryegrass: 1, 0, 0.5, 1 -> 0.5, 0, 0.5, 1
  expect(classes[0]).toEqual({
    label: 1,
    coverFractionBefore: 0.625,
    coverFractionAfter: 0.5,
    patchesUp: 0,
    patchesDown: 1,
    patchesSame: 3,
    gainFraction: 0,
    lossFraction: 0.125,
  });
  // weedy grass: 0, 1, 0, 0 -> 0.5, 0.75, 0, 0: the mean hides that it came in one place and went in another
  expect(classes[1]).toMatchObject({
    patchesUp: 1,
    patchesDown: 1,
    gainFraction: 0.125,
    lossFraction: 0.0625,
  });
  expect(changes.slice(0, 3)).toEqual([-0.5, 0.5, 0]);
});

test('patches with little measured ground are left out, and nothing is said where none is left', () => {
  const whole = patchesOf(labelMaskFrom('RRRR/RRRR/RRRR/RRRR'));
  const holed = patchesOf(labelMaskFrom('..../R..R/RRRR/RRRR'));
  const { patchesLeftOut, classes, changes } = patchChange(whole, holed);
  expect(patchesLeftOut).toBe(2);
  expect(classes[0]).toMatchObject({ coverFractionAfter: 1, patchesSame: 2 });
  expect(changes[0]).toBeNull();
  const empty = patchesOf(labelMaskFrom('..../..../..../....'));
  expect(patchChange(whole, empty)).toMatchObject({ patchesCompared: 0, patchesLeftOut: 4, classes: [] });
});

test('the same ground seen from two places does not change by more than pixels on the borders of patches', () => {
  // ground of 10 x 10 patches, alternately of class 1 and 2, seen from above and from the side
  const ground: Quadrilateral<'photo'> = corners([0, 0], [1, 0], [1, 1], [0, 1]);
  const seen = (frame: Quadrilateral<'photo'>) => {
    const toGround = homographyBetween(frame, ground);
    const labels = new Uint8Array(300 * 300);
    for (let y = 0; y < 300; y += 1) {
      for (let x = 0; x < 300; x += 1) {
        const [u, v] = mapPoint<'photo', 'photo'>(toGround, photoPoint(x + 0.5, y + 0.5));
        labels[y * 300 + x] = 1 + ((Math.floor(10 * u) + Math.floor(10 * v)) & 1);
      }
    }
    const area = measuredArea(300, 300, { frame: { corners: frame, sizeMm: [500, 500] } });
    return patchCover({ widthPx: 300, heightPx: 300, labels }, area, frame, 2, { columns: 10, rows: 10 });
  };
  const above = seen(corners([20, 20], [280, 20], [280, 280], [20, 280]));
  const aside = seen(corners([60, 40], [250, 30], [290, 270], [15, 285]));
  const { classes, changes, patchesCompared } = patchChange(above, aside, { leastMeasured: 0.2 });
  expect(patchesCompared).toBe(100);
  expect(classes.map(({ patchesSame }) => patchesSame)).toEqual([100, 100]);
  expect(Math.max(...changes.map((change) => Math.abs(change ?? 1)))).toBeLessThan(0.01);
});

test('unlike divisions and unknown labels are refused', () => {
  const mask = labelMaskFrom('RRRR/RRRR/RRRR/RRRR');
  const area = measuredArea(4, 4);
  const other = patchCover(mask, area, square, 3, { columns: 1, rows: 2 });
  expect(() => patchChange(patchesOf(mask), other)).toThrow('got 2 x 2 of 3 and 1 x 2 of 3');
  expect(() => patchCover(mask, area, square, 3, { columns: 0, rows: 2 })).toThrow('got 0 x 2');
  expect(() => patchCover(labelMaskFrom('BBBB/BBBB/BBBB/BBBB'), area, square, 2, grid)).toThrow('label 3');
});
