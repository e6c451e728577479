import { expect, test } from 'vitest';
import { type ReviewCandidate, reviewOrder } from '../../../src/core/mask/reviewOrder.ts';

const photo = (id: string, facts: Partial<ReviewCandidate> = {}): ReviewCandidate => ({
  id,
  flags: 0,
  reasons: 0,
  coverFraction: [0.7, 0.2, 0.1],
  ...facts,
});

test('flags come before reasons, reasons before cover unlike the others', () => {
  const places = reviewOrder([
    photo('plain'),
    photo('unlike', { coverFraction: [0.1, 0.8, 0.1] }),
    photo('reasons', { reasons: 2 }),
    photo('flagged', { flags: 1 }),
    photo('other plain'),
  ]);
  expect(places.map(({ id }) => id)).toEqual(['flagged', 'reasons', 'unlike', 'plain', 'other plain']);
  expect(places.map(({ isDoubted }) => isDoubted)).toEqual([true, true, false, false, false]);
  // by hand: medians 0.7, 0.2, 0.1; half of 0.6 + 0.6 + 0
  expect(places[2]!.unlikeOthers).toBeCloseTo(0.6, 12);
});

test('an empty date has no queue', () => {
  expect(reviewOrder([])).toEqual([]);
});
