import { expect, test } from 'vitest';
import { coverOfMask } from '../../../src/core/cover/coverOfMask.ts';
import { measuredArea } from '../../../src/core/geometry/measuredArea.ts';
import { photoPoint } from '../../../src/core/geometry/points.ts';
import { labelMaskFrom } from '../../support/labelMaskFrom.ts';

test('without a frame every pixel counts the same', () => {
  const cover = coverOfMask(labelMaskFrom('RRW/RRB'), measuredArea(3, 2), 3);
  expect(cover).toEqual([
    { pixels: 4, coverFraction: 4 / 6 },
    { pixels: 1, coverFraction: 1 / 6 },
    { pixels: 1, coverFraction: 1 / 6 },
  ]);
});

test('no measured pixel, no share', () => {
  const all = [photoPoint(0, 0), photoPoint(3, 0), photoPoint(3, 2), photoPoint(0, 2)];
  expect(coverOfMask(labelMaskFrom('.../...'), measuredArea(3, 2, { ignored: [all] }), 3)).toBeNull();
});

test('a measured pixel without a label is an error, not a class', () => {
  expect(() => coverOfMask(labelMaskFrom('RR./RRB'), measuredArea(3, 2), 3)).toThrow(
    '1 measured pixels have no label',
  );
});

test('a far pixel stands for more ground than a near one', () => {
  // seen in perspective: the upper half of the photo holds more ground than the lower
  const corners = [photoPoint(30, 0), photoPoint(70, 0), photoPoint(100, 100), photoPoint(0, 100)] as const;
  const area = measuredArea(100, 100, { frame: { corners, sizeMm: [500, 500] } });
  const labels = area.inside.map((inside, i) => (inside === 0 ? 0 : i < 5000 ? 1 : 2));
  const [far, near] = coverOfMask({ widthPx: 100, heightPx: 100, labels }, area, 2)!;
  expect(far!.pixels).toBeLessThan(near!.pixels);
  // 40 : 100 perspective; row 50 divides the ground at 100/140 of its depth (worked by hand: 1/z is linear in y)
  expect(far!.coverFraction).toBeCloseTo(100 / 140, 2);
});
