import fc from 'fast-check';
import { expect, test } from 'vitest';
import { spreadLabels } from '../../../src/app/charts/spreadLabels.ts';

test('labels with room stay where they are', () => {
  expect(spreadLabels([10, 50, 90], [12, 12, 12], 0, 100)).toEqual([10, 50, 90]);
});

test('two that would overlap part by the same distance, and keep their order', () => {
  // wanted 50 and 54, 12 high: 6 each side of the middle 52
  expect(spreadLabels([54, 50], [12, 12], 0, 100)).toEqual([58, 46]);
});

test('labels at the edge move inwards', () => {
  expect(spreadLabels([0, 100], [10, 10], 0, 100)).toEqual([5, 95]);
});

test('no two overlap, all lie inside where there is room, and order is kept', () => {
  const label = fc.record({
    at: fc.double({ min: -20, max: 220, noNaN: true }),
    size: fc.integer({ min: 4, max: 20 }),
  });
  fc.assert(
    fc.property(fc.array(label, { maxLength: 10 }), (labels) => {
      const centres = spreadLabels(
        labels.map(({ at }) => at),
        labels.map(({ size }) => size),
        0,
        200,
      );
      const placed = labels
        .map(({ at, size }, index) => ({ at, size, centre: centres[index]! }))
        .sort((a, b) => a.centre - b.centre);
      placed.forEach(({ at, size, centre }, i) => {
        expect(centre - size / 2).toBeGreaterThanOrEqual(-1e-9);
        expect(centre + size / 2).toBeLessThanOrEqual(200 + 1e-9);
        const next = placed[i + 1];
        if (!next) return;
        expect(next.centre - next.size / 2).toBeGreaterThanOrEqual(centre + size / 2 - 1e-9);
        expect(next.at).toBeGreaterThanOrEqual(at);
      });
    }),
    { numRuns: 200, seed: 20270412 },
  );
});
