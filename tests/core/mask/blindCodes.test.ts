import { expect, test } from 'vitest';
import { blindCodes } from '../../../src/core/mask/blindCodes.ts';

const treatments = ['Untreated', 'Programme 1', 'Programme 2', 'Programme 3'];

test('each treatment has a code of its own, the same each time', () => {
  const codes = blindCodes(treatments, 'trial 2027-05-17');
  expect([...codes.keys()]).toEqual(treatments);
  expect(new Set(codes.values()).size).toBe(4);
  expect([...codes.values()].every((code) => /^[a-z]{2}$/.test(code))).toBe(true);
  expect(blindCodes(treatments, 'trial 2027-05-17')).toEqual(codes);
});

test('another rating date deals out others', () => {
  expect(blindCodes(treatments, 'trial 2027-07-26')).not.toEqual(blindCodes(treatments, 'trial 2027-05-17'));
});

test('the order of codes does not follow the order of treatments', () => {
  // of 40 occasions, about one in 24 has four codes in rising order
  const rising = Array.from({ length: 40 }, (_, i) => [
    ...blindCodes(treatments, `date ${i}`).values(),
  ]).filter((codes) => codes.join() === [...codes].sort().join());
  expect(rising.length).toBeLessThan(8);
});
