import { describe, expect, test } from 'vitest';
import { chiSquareUpperTail } from '../../../src/core/statistics/distributions/chiSquare.ts';
import {
  dunnettCritical,
  dunnettDistribution,
  dunnettUpperTail,
} from '../../../src/core/statistics/distributions/dunnett.ts';
import { fisherFCritical, fisherFUpperTail } from '../../../src/core/statistics/distributions/fisherF.ts';
import { incompleteBeta } from '../../../src/core/statistics/distributions/incompleteBeta.ts';
import { noncentralFUpperTail } from '../../../src/core/statistics/distributions/noncentralF.ts';
import { normalCdf, normalQuantile } from '../../../src/core/statistics/distributions/normal.ts';
import {
  studentizedRangeCritical,
  studentizedRangeUpperTail,
} from '../../../src/core/statistics/distributions/studentizedRange.ts';
import { studentTCritical, studentTTwoSided } from '../../../src/core/statistics/distributions/studentT.ts';
import { worstRelativeDifference } from '../../support/relativeDifference.ts';
// scipy's values; the script that made them stands beside the file.
import scipy from './fixtures/distributions.json' with { type: 'json' };
import missing from './fixtures/dunnettMissing.json' with { type: 'json' };

/** Rows of arguments with the expected value last. */
type Rows = readonly (readonly number[])[];

function worst(rows: Rows, f: (...args: number[]) => number): number {
  return worstRelativeDifference(
    rows.map((row) => ({ got: f(...row.slice(0, -1)), expected: row.at(-1)!, what: row.join(', ') })),
  );
}

describe('closed-form distributions agree with scipy relatively, far tails included', () => {
  test('normal', () => {
    expect(worst(scipy.normal, normalCdf)).toBeLessThan(1e-13);
    expect(worst(scipy.normalQuantile, normalQuantile)).toBeLessThan(1e-13);
  });
  test('t', () => {
    expect(worst(scipy.t, (t, df) => studentTTwoSided(t!, df!))).toBeLessThan(1e-12);
    expect(worst(scipy.tCritical, (alpha, df) => studentTCritical(alpha!, df!))).toBeLessThan(1e-12);
  });
  test('F and non-central F', () => {
    expect(worst(scipy.f, (f, m, d) => fisherFUpperTail(f!, m!, d!))).toBeLessThan(1e-11);
    expect(worst(scipy.fCritical, (alpha, m, d) => fisherFCritical(alpha!, m!, d!))).toBeLessThan(1e-12);
    expect(worst(scipy.noncentralF, (f, m, d, n) => noncentralFUpperTail(f!, m!, d!, n!))).toBeLessThan(1e-9);
  });
  test('chi-square', () => {
    expect(worst(scipy.chiSquare, (x, df) => chiSquareUpperTail(x!, df!))).toBeLessThan(1e-11);
  });
  test('incomplete beta, both tails', () => {
    const lower = scipy.beta.map(([a, b, x, p]) => [a!, b!, x!, p!]);
    const upper = scipy.beta.map(([a, b, x, , q]) => [a!, b!, x!, q!]);
    expect(worst(lower, (a, b, x) => incompleteBeta(a!, b!, x!, 1 - x!).lower)).toBeLessThan(1e-10);
    expect(worst(upper, (a, b, x) => incompleteBeta(a!, b!, x!, 1 - x!).upper)).toBeLessThan(1e-10);
  });
});

describe('studentized range', () => {
  // scipy integrates to about 1e-8 absolute; the smaller of absolute and relative difference is held.
  test('tail', () => {
    for (const [q, k, df, expected] of scipy.studentizedRange as [number, number, number, number][]) {
      const got = studentizedRangeUpperTail(q, k, df);
      expect(Math.abs(got - expected), `q ${q} k ${k} df ${df}`).toBeLessThan(2e-8);
    }
  });
  test('critical values', () => {
    expect(
      worst(scipy.studentizedRangeCritical, (alpha, k, df) => studentizedRangeCritical(alpha!, k!, df!)),
    ).toBeLessThan(1e-7);
  });
  test('two means: the range is a t statistic times the square root of 2, also far out', () => {
    for (const t of [0.1, 1, 3, 8, 20]) {
      for (const df of [1, 4, 30, 200]) {
        const got = studentizedRangeUpperTail(t * Math.SQRT2, 2, df);
        expect(Math.abs(got / studentTTwoSided(t, df) - 1), `t ${t} df ${df}`).toBeLessThan(1e-11);
      }
    }
  });
});

test('statistics beyond any table have a p of 0, never a NaN', () => {
  for (const statistic of [60, 1e3, 1e8, 1e200]) {
    for (const df of [1, 9, 177]) {
      for (const p of [
        studentizedRangeUpperTail(statistic, 60, df),
        dunnettUpperTail(statistic, [0.7, 0.99], df),
        studentTTwoSided(statistic, df),
        fisherFUpperTail(statistic, 3, df),
      ]) {
        expect(p).toBeGreaterThanOrEqual(0);
        expect(p).toBeLessThan(0.1);
      }
    }
  }
});

describe('Dunnett', () => {
  test('tail and critical value agree with adaptive quadrature', () => {
    for (const [t, loadings, df, expected] of scipy.dunnett as [number, number[], number, number][]) {
      const got = dunnettUpperTail(t, loadings, df);
      expect(Math.abs(got / expected - 1), `t ${t} loadings ${loadings} df ${df}`).toBeLessThan(1e-8);
    }
    for (const [alpha, loadings, df, expected] of scipy.dunnettCritical as [
      number,
      number[],
      number,
      number,
    ][]) {
      expect(dunnettCritical(alpha, loadings, df)).toBeCloseTo(expected, 8);
    }
  });
  test.each(missing.cases)('missing plots: $treatments treatments in $blocks blocks', (c) => {
    const { method, upperTail, critical } = dunnettDistribution(c.correlation, c.df);
    expect(method).toBe('corrected-product');
    expect(upperTail(critical(0.05))).toBeCloseTo(0.05, 6);
    for (const [t, expected, error] of c.tails as [number, number, number][]) {
      expect(Math.abs(upperTail(t) - expected), `t ${t}`).toBeLessThan(1e-5 + 4 * error);
    }
  });
  test('one comparison is a t test', () => {
    expect(dunnettUpperTail(2.7, [0], 11) / studentTTwoSided(2.7, 11)).toBeCloseTo(1, 11);
  });
});
