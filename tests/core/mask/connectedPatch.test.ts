import fc from 'fast-check';
import { expect, test } from 'vitest';
import { hasPixel, type PixelRuns } from '../../../src/core/geometry/pixelRuns.ts';
import { photoPoint } from '../../../src/core/geometry/points.ts';
import { connectedPatch } from '../../../src/core/mask/connectedPatch.ts';
import type { LabelMask } from '../../../src/core/raster/labelMask.ts';
import { labelMaskFrom } from '../../support/labelMaskFrom.ts';

const picture = (runs: PixelRuns, { widthPx, heightPx }: LabelMask) =>
  Array.from({ length: heightPx }, (_, y) =>
    Array.from({ length: widthPx }, (_, x) => (hasPixel(runs, x, y) ? '#' : '.')).join(''),
  ).join('/');

test('reaches over edges, not over corners', () => {
  const mask = labelMaskFrom('RRWW/WRWR/RWRR');
  expect(picture(connectedPatch(mask, photoPoint(0.2, 0.9)), mask)).toBe('##../.#../....');
  expect(picture(connectedPatch(mask, photoPoint(3, 2)), mask)).toBe('..../...#/..##');
});

test('finds its way round corners and back up', () => {
  const mask = labelMaskFrom('WRWWW/WRWRW/WRWRW/WWWRW/RRRRW/WWWWW');
  expect(picture(connectedPatch(mask, photoPoint(0, 0)), mask)).toBe('#.###/#.#.#/#.#.#/###.#/....#/#####');
});

test('ends at the box', () => {
  const mask = labelMaskFrom('RRRR/RRRR/RRRR');
  const box = { left: 1, top: 1, right: 3, bottom: 9 };
  expect(picture(connectedPatch(mask, photoPoint(1, 1), box), mask)).toBe('..../.##./.##.');
  expect(connectedPatch(mask, photoPoint(0, 0), box).pixels).toBe(0);
});

test('nothing grows where nothing is measured, nor from beside the photo', () => {
  const mask = labelMaskFrom('R.');
  expect(connectedPatch(mask, photoPoint(1, 0)).pixels).toBe(0);
  expect(connectedPatch(mask, photoPoint(2, 0)).pixels).toBe(0);
  expect(connectedPatch(mask, photoPoint(-1, 0)).pixels).toBe(0);
});

test('the same patch as walking from pixel to pixel', () => {
  const labels = fc.array(fc.integer({ min: 0, max: 2 }), { minLength: 12 * 9, maxLength: 12 * 9 });
  fc.assert(
    fc.property(labels, fc.integer({ min: 0, max: 12 * 9 - 1 }), (values, seed) => {
      const mask: LabelMask = { widthPx: 12, heightPx: 9, labels: Uint8Array.from(values) };
      const runs = connectedPatch(mask, photoPoint(seed % 12, Math.floor(seed / 12)));
      const walked = walk(mask, seed);
      expect(picture(runs, mask)).toBe(
        Array.from({ length: 9 }, (_, y) =>
          Array.from({ length: 12 }, (_, x) => (walked.has(y * 12 + x) ? '#' : '.')).join(''),
        ).join('/'),
      );
      expect(runs.pixels).toBe(walked.size);
    }),
    { seed: 3, numRuns: 200 },
  );
});

function walk(
  { widthPx, heightPx, labels }: LabelMask,
  seed: number,
  found = new Set<number>(),
): Set<number> {
  if (labels[seed] === 0 || found.has(seed)) return found;
  found.add(seed);
  const [x, y] = [seed % widthPx, Math.floor(seed / widthPx)];
  const next = [
    x > 0 ? seed - 1 : seed,
    x + 1 < widthPx ? seed + 1 : seed,
    y > 0 ? seed - widthPx : seed,
    y + 1 < heightPx ? seed + widthPx : seed,
  ];
  for (const pixel of next)
    if (labels[pixel] === labels[seed]) walk({ widthPx, heightPx, labels }, pixel, found);
  return found;
}
