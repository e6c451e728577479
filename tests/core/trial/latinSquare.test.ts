import { expect, test } from 'vitest';
import { randomLatinSquare } from '../../../src/core/trial/latinSquare.ts';
import { repeatableRandom } from '../../../src/core/trial/repeatableRandom.ts';

const distinct = (values: readonly number[]) => new Set(values).size;

test.each([2, 3, 4, 5, 7, 10, 16])('order %i: every symbol once in each row and column', (order) => {
  const random = repeatableRandom(order);
  for (let repeat = 0; repeat < 3; repeat++) {
    const square = randomLatinSquare(order, random);
    for (let line = 0; line < order; line++) {
      expect(distinct(square[line]!)).toBe(order);
      expect(distinct(square.map((row) => row[line]!))).toBe(order);
    }
  }
});

/**
 * Numbers of Latin squares: 12 of order 3, 576 of order 4 (OEIS A002860).
 * Chi-square against equal shares: the 0.999 quantiles are 31.26 (11 df) and 685.52 (575 df),
 * scipy.stats.chi2.ppf(0.999, [11, 575]).
 */
test.each([
  [3, 12, 6000, 31.26],
  [4, 576, 5760, 685.52],
])('order %i: all %i squares come up evenly', (order, squares, draws, quantile) => {
  const random = repeatableRandom(20270308);
  const counts = new Map<string, number>();
  for (let draw = 0; draw < draws; draw++) {
    const key = randomLatinSquare(order, random).join('/');
    counts.set(key, (counts.get(key) ?? 0) + 1);
  }
  expect(counts.size).toBe(squares);
  const expected = draws / squares;
  let chiSquare = 0;
  for (const count of counts.values()) chiSquare += (count - expected) ** 2 / expected;
  expect(chiSquare).toBeLessThan(quantile);
});
