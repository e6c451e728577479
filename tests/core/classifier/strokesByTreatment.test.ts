import { expect, test } from 'vitest';
import { lopsidedTeaching, strokesByTreatment } from '../../../src/core/classifier/strokesByTreatment.ts';

const photos = (...entries: [treatment: string, strokes: number][]) =>
  entries.map(([treatment, strokes]) => ({ treatment, strokes }));

test('strokes are added up by treatment', () => {
  expect(strokesByTreatment(photos(['B', 4], ['A', 0], ['B', 0], ['A', 3]))).toEqual([
    { treatment: 'A', photos: 2, paintedPhotos: 1, strokes: 3 },
    { treatment: 'B', photos: 2, paintedPhotos: 1, strokes: 4 },
  ]);
});

const CASES: [name: string, entries: [treatment: string, strokes: number][], expected: object | null][] = [
  ['nothing painted at all', Object.entries({ A: 0, B: 0 }), null],
  ['alike', Object.entries({ A: 5, B: 6 }), null],
  ['three times as many', Object.entries({ A: 5, B: 15 }), null],
  [
    'more than three times as many',
    Object.entries({ A: 5, B: 16 }),
    { code: 'strokes-uneven', most: { treatment: 'B' }, least: { treatment: 'A' } },
  ],
  [
    'a treatment left out',
    Object.entries({ A: 5, B: 0, C: 90 }),
    { code: 'treatments-left-out', treatments: ['B'] },
  ],
];

test.each(CASES)('lopsided or not: %s', (_, entries, expected) => {
  const warning = lopsidedTeaching(strokesByTreatment(photos(...entries)));
  if (expected === null) expect(warning).toBeNull();
  else expect(warning).toMatchObject(expected);
});
