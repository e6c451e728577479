import { describe, expect, test } from 'vitest';
import {
  goodmanIntervals,
  quesenberryHurstIntervals,
} from '../../../src/core/statistics/proportions/multinomialIntervals.ts';
import {
  chanceToMiss,
  pointStandardError,
  pointsNeeded,
} from '../../../src/core/statistics/proportions/pointsNeeded.ts';
import {
  clopperPearsonInterval,
  type Interval,
  jeffreysInterval,
  wilsonInterval,
} from '../../../src/core/statistics/proportions/proportionInterval.ts';
import { referenceValues } from '../../support/referenceValues.ts';

type Pair = [number, number];
/** Newcombe 1998, Table I, and R; the commands stand in the file. */
const proportions = referenceValues<{
  published_newcombe_table_1: Record<string, { method3_score: Pair; method5_exact: Pair }>;
  computed_95: { x: number; n: number; wilson: Pair; clopper_pearson: Pair; jeffreys: Pair }[];
}>('proportion-ci.json');

function near({ low, high }: Interval, expected: readonly number[], tolerance: number, what: string): void {
  expect(Math.abs(low - expected[0]!), `low of ${what}`).toBeLessThan(tolerance);
  expect(Math.abs(high - expected[1]!), `high of ${what}`).toBeLessThan(tolerance);
}

describe('proportions', () => {
  test('Newcombe 1998, Table I', () => {
    for (const [ratio, row] of Object.entries(proportions.published_newcombe_table_1)) {
      const [hits, points] = ratio.split('/').map(Number) as Pair;
      near(wilsonInterval(hits, points, 0.95), row.method3_score, 5.001e-5, `Wilson ${ratio}`);
      near(clopperPearsonInterval(hits, points, 0.95), row.method5_exact, 5.001e-5, `exact ${ratio}`);
    }
  });
  test('R to 1e-10', () => {
    expect(proportions.computed_95.length).toBeGreaterThan(10);
    for (const c of proportions.computed_95) {
      near(wilsonInterval(c.x, c.n, 0.95), c.wilson, 1e-10, `Wilson ${c.x}/${c.n}`);
      near(clopperPearsonInterval(c.x, c.n, 0.95), c.clopper_pearson, 1e-10, `exact ${c.x}/${c.n}`);
      near(jeffreysInterval(c.x, c.n, 0.95), c.jeffreys, 1e-10, `Jeffreys ${c.x}/${c.n}`);
    }
  });
  test('counts that cannot be are refused with the value', () => {
    expect(() => wilsonInterval(3, 0, 0.95)).toThrow('points must be 1 or more, got 0');
    expect(() => wilsonInterval(8, 5, 0.95)).toThrow('0..5, got 8');
    expect(() => clopperPearsonInterval(1, 5, 95)).toThrow('got 95');
  });
});

test('simultaneous intervals of several classes', () => {
  // Goodman 1965 and Quesenberry & Hurst 1964; published 3 decimals and R to 12 digits
  const reference = referenceValues<{
    counts: number[];
    goodman_95_published_3_decimals: Pair[];
    goodman_95_bonferroni: Pair[];
    quesenberry_hurst_95: Pair[];
    three_classes: { counts: number[]; goodman_95: Pair[] };
    three_classes_with_zero: { counts: number[]; goodman_95: Pair[] };
  }>('multinomial-ci.json');
  goodmanIntervals(reference.counts, 0.95).forEach((interval, i) => {
    near(interval, reference.goodman_95_published_3_decimals[i]!, 5.001e-4, `class ${i}`);
    near(interval, reference.goodman_95_bonferroni[i]!, 1e-10, `class ${i}`);
  });
  quesenberryHurstIntervals(reference.counts, 0.95).forEach((interval, i) => {
    near(interval, reference.quesenberry_hurst_95[i]!, 1e-10, `class ${i}`);
  });
  for (const { counts, goodman_95 } of [reference.three_classes, reference.three_classes_with_zero]) {
    goodmanIntervals(counts, 0.95).forEach((interval, i) => {
      near(interval, goodman_95[i]!, 1e-10, `class ${i} of ${counts}`);
    });
  }
});

test('points needed, their error and the chance to miss a class', () => {
  const reference = referenceValues<{
    rows: Record<string, number>[];
    se_of_cover_percent: Record<string, number>[];
    chance_to_miss: Record<string, number>[];
  }>('points-needed.json');
  for (const row of reference.rows) {
    for (const key of Object.keys(row).filter((name) => name.startsWith('n_for'))) {
      expect(pointsNeeded(row.cover!, Number(key.split('_').at(-1)), 0.95), `${row.cover} ${key}`).toBe(
        row[key],
      );
    }
  }
  for (const row of reference.se_of_cover_percent) {
    for (const cover of [5, 20, 50]) {
      expect(100 * pointStandardError(cover / 100, row.points!)).toBeCloseTo(row[`se_at_${cover}`]!, 10);
    }
  }
  for (const row of reference.chance_to_miss) {
    expect(chanceToMiss(row.cover!, 100) / row.points_100!).toBeCloseTo(1, 10);
    expect(chanceToMiss(row.cover!, 400) / row.points_400!).toBeCloseTo(1, 10);
  }
});
