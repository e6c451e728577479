import { expect, test } from 'vitest';
import { mean } from '../../../src/core/statistics/mean.ts';
import { median } from '../../../src/core/statistics/median.ts';

// by hand
test('mean and median of an odd and an even number of values, in any order; of none there is neither', () => {
  const odd = [7, 1, 4];
  expect([mean(odd), median(odd)]).toEqual([4, 4]);
  expect([mean([1, 2, 9, 4]), median([1, 2, 9, 4])]).toEqual([4, 3]);
  expect(odd).toEqual([7, 1, 4]);
  expect(() => mean([])).toThrow(RangeError);
  expect(() => median([])).toThrow(RangeError);
});
