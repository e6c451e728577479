import { describe, expect, test } from 'vitest';
import { adjustCover } from '../../../src/core/cover/adjustedCover.ts';
import { cohenKappa } from '../../../src/core/cover/kappa.ts';
import { limitsOfAgreement, linConcordance } from '../../../src/core/cover/methodAgreement.ts';
import { referenceValues } from '../../support/referenceValues.ts';
import { type Checked, worstRelativeDifference } from '../../support/relativeDifference.ts';

function lists(got: readonly (number | null)[], expected: readonly number[], what: string): Checked[] {
  return expected.map((value, i) => ({ got: got[i]!, expected: value, what: `${what} ${i}` }));
}

/** Olofsson et al. 2014, Table 8, and 2013, examples 1 and 2; recomputed in R and with its survey package. */
const areaCases = referenceValues<{
  cases: {
    id: string;
    classes: string[];
    matrix_rows_map_columns_reference: number[][];
    mapped_area: number[];
    published: { users: number[]; producers: number[]; overall: number } | null;
    expected: Record<string, number[]> & { overall_accuracy: number; overall_accuracy_se: number };
    survey_package: { area_se: number[]; producers_se: number[]; overall_se: number };
  }[];
}>('area-estimation.json').cases;

describe('cover adjusted for the errors of the mask', () => {
  test.each(areaCases)(
    '$id',
    ({ classes, matrix_rows_map_columns_reference, mapped_area, published, expected, survey_package }) => {
      const area = mapped_area.reduce((a, b) => a + b, 0);
      const result = adjustCover({
        classes,
        mappedFraction: mapped_area.map((value) => value / area),
        counts: matrix_rows_map_columns_reference,
      });
      const half = result.high.map((high, i) => (high! - result.low[i]!) / 2);
      const checks = [
        ...lists(result.adjustedFraction, expected.area_proportion!, 'cover'),
        ...lists(result.standardError, expected.area_proportion_se!, 'cover se'),
        ...lists(
          half.map((value) => value * area),
          expected.adjusted_area_ci95_half!,
          'half width',
        ),
        ...lists(result.usersAccuracy, expected.users_accuracy!, 'users'),
        ...lists(result.usersStandardError, expected.users_se!, 'users se'),
        ...lists(result.producersAccuracy, expected.producers_accuracy!, 'producers'),
        ...lists(result.producersStandardError, expected.producers_se!, 'producers se'),
        { got: result.overallAccuracy!, expected: expected.overall_accuracy, what: 'overall' },
        { got: result.overallStandardError!, expected: expected.overall_accuracy_se, what: 'overall se' },
      ];
      expect(worstRelativeDifference(checks)).toBeLessThan(1e-10);
      const survey = [
        ...lists(
          result.standardError.map((value) => value! * area),
          survey_package.area_se,
          'survey',
        ),
        ...lists(result.producersStandardError, survey_package.producers_se, 'survey producers'),
        { got: result.overallStandardError!, expected: survey_package.overall_se, what: 'survey overall' },
      ];
      expect(worstRelativeDifference(survey)).toBeLessThan(1e-8);
      if (published) {
        result.usersAccuracy.forEach((value, i) => {
          expect(value!.toFixed(2)).toBe(published.users[i]!.toFixed(2));
        });
        result.producersAccuracy.forEach((value, i) => {
          expect(value!.toFixed(2)).toBe(published.producers[i]!.toFixed(2));
        });
        expect(result.overallAccuracy!.toFixed(2)).toBe(published.overall.toFixed(2));
      }
    },
  );

  const counts = [
    [40, 3, 2],
    [5, 30, 1],
    [1, 2, 16],
  ];
  test('kappa: shares drawn in proportion to the mask give the kappa of the counts', () => {
    const points = counts.map((row) => row.reduce((a, b) => a + b, 0));
    const reference = { classes: ['a', 'b', 'c'], mappedFraction: points.map((n) => n / 100), counts };
    const result = adjustCover(reference);
    expect(result.kappa!).toBeCloseTo(cohenKappa(counts).kappa!, 12);
    expect(result.kappaOfCounts).toBe(cohenKappa(counts).kappa);
    // known row totals leave a little less error than multinomial sampling; computed below by differences of the estimator
    const step = 1e-6;
    const kappaAt = (i: number, j: number, by: number): number => {
      const share = counts.map((row, r) =>
        row.map((count, c) => count / points[r]! + (r === i && c === j ? by : 0)),
      );
      const w = reference.mappedFraction;
      const agreement = w.reduce((sum, value, r) => sum + value * share[r]![r]!, 0);
      const chance = w.reduce(
        (sum, value, r) => sum + value * w.reduce((s, other, q) => s + other * share[q]![r]!, 0),
        0,
      );
      return (agreement - chance) / (1 - chance);
    };
    let variance = 0;
    counts.forEach((row, i) => {
      const slopes = row.map((_, j) => (kappaAt(i, j, step) - kappaAt(i, j, -step)) / (2 * step));
      const p = row.map((count) => count / points[i]!);
      const mean = p.reduce((sum, value, j) => sum + value * slopes[j]!, 0);
      variance += p.reduce((sum, value, j) => sum + value * (slopes[j]! - mean) ** 2, 0) / (points[i]! - 1);
    });
    expect(result.kappaStandardError!).toBeCloseTo(Math.sqrt(variance), 6);
  });
  test('a mapped class without points leaves what needs it unknown, and says so', () => {
    const result = adjustCover({
      classes: ['a', 'b'],
      mappedFraction: [0.6, 0.4],
      counts: [
        [10, 2],
        [0, 0],
      ],
    });
    expect(result.adjustedFraction).toEqual([null, null]);
    expect(result.overallAccuracy).toBeNull();
    expect(result.usersAccuracy).toEqual([10 / 12, null]);
    expect(result.notes[0]).toEqual({ code: 'stratum-without-points', values: { classes: ['b'] } });
  });
  test('one point gives no error; a flawless class is no proof; limits stay within 0 and 1', () => {
    const single = adjustCover({
      classes: ['a', 'b'],
      mappedFraction: [0.6, 0.4],
      counts: [
        [10, 2],
        [0, 1],
      ],
    });
    expect(single.adjustedFraction.every((value) => value !== null)).toBe(true);
    expect(single.standardError).toEqual([null, null]);
    const flawless = adjustCover({
      classes: ['a', 'b'],
      mappedFraction: [0.98, 0.02],
      counts: [
        [29, 1],
        [0, 2],
      ],
    });
    expect(flawless.notes.map(({ code }) => code)).toEqual(['no-errors-seen', 'interval-cut']);
    expect(flawless.low[1]).toBe(0);
    expect(flawless.high[0]).toBe(1);
  });
  test('impossible input is refused with the value', () => {
    const base = {
      classes: ['a', 'b'],
      mappedFraction: [0.6, 0.4],
      counts: [
        [1, 2],
        [3, 4],
      ],
    };
    expect(() => adjustCover({ ...base, mappedFraction: [0.6, 0.6] })).toThrow('they add to 1.2');
    expect(() =>
      adjustCover({
        ...base,
        counts: [
          [1, 2],
          [3, -4],
        ],
      }),
    ).toThrow('got -4');
    expect(() => adjustCover({ ...base, counts: [[1, 2]] })).toThrow('2 x 2');
  });
});

describe('kappa', () => {
  type KappaCase = {
    name?: string;
    table: number[][];
    observed_agreement: number;
    chance_agreement: number;
    kappa: number | null;
    se: number | null;
    se_under_zero: number | null;
  };
  const reference = referenceValues<{
    known: Record<string, number>;
    cases: KappaCase[];
    quadratic_weighted: KappaCase;
  }>('kappa.json');
  test.each([...reference.cases, { ...reference.quadratic_weighted, name: 'quadratic' }])('$name', (c) => {
    const got = cohenKappa(c.table, c.name === 'quadratic' ? 'quadratic' : 'none');
    if (c.kappa === null) {
      expect(got).toMatchObject({ kappa: null, standardError: null, standardErrorUnderZero: null });
      return;
    }
    for (const [value, expected] of [
      [got.observedAgreement, c.observed_agreement],
      [got.chanceAgreement, c.chance_agreement],
      [got.kappa, c.kappa],
      [got.standardError, c.se],
      [got.standardErrorUnderZero, c.se_under_zero],
    ] as const) {
      // R prints 12 digits; a perfect table leaves a rest of rounding of 1e-9 under the root
      expect(Math.abs(value! - expected!)).toBeLessThan(c.se === 0 ? 2e-8 : 1e-11);
    }
  });
  test('published', () => {
    // Cohen 1960; Fleiss, Cohen & Everitt 1969
    expect(cohenKappa(reference.cases[0]!.table).kappa!.toFixed(3)).toBe(
      String(reference.known.cohen1960_kappa),
    );
    expect(cohenKappa(reference.cases[1]!.table).kappa!.toFixed(3)).toBe(
      String(reference.known.fleiss_cohen_everitt1969_kappa),
    );
  });
});

describe('agreement of two methods', () => {
  // Bland & Altman 1986, peak flow; Lin 1989, 2000; R epiR
  const r = referenceValues<{
    wright: number[];
    mini_wright: number[];
    bland_altman: Record<string, number> &
      Record<'bias_ci95' | 'limits_1.96' | 'limits_2' | 'lower_limit_ci95' | 'upper_limit_ci95', number[]>;
    lin_ccc_n_denominator: Record<string, number> & { ci95_z: number[] };
    ccc_shift_by_1_of_1_to_5: number;
    ccc_scale_by_2_of_1_to_5: number;
  }>('method-agreement.json');
  test('limits of agreement', () => {
    const b = r.bland_altman;
    const two = limitsOfAgreement(r.wright, r.mini_wright, 2)!;
    const own = limitsOfAgreement(r.wright, r.mini_wright)!;
    expect(
      worstRelativeDifference([
        { got: own.meanDifference, expected: b.bias!, what: 'bias' },
        { got: own.standardDeviation, expected: b.sd!, what: 'sd' },
        { got: own.standardError, expected: b.se_bias!, what: 'se' },
        ...lists(own.meanDifferenceInterval, b.bias_ci95, 'bias ci'),
        ...lists(own.limits, b['limits_1.96'], 'limits'),
        ...lists(two.limits, b.limits_2, 'limits 2'),
        ...lists(two.lowerLimitInterval, b.lower_limit_ci95, 'lower'),
        ...lists(two.upperLimitInterval, b.upper_limit_ci95, 'upper'),
      ]),
    ).toBeLessThan(1e-10);
  });
  test('concordance', () => {
    const l = r.lin_ccc_n_denominator;
    const own = linConcordance(r.wright, r.mini_wright)!;
    expect(
      worstRelativeDifference([
        { got: own.coefficient, expected: l.rho_c!, what: 'rho' },
        { got: own.pearson, expected: l.pearson!, what: 'r' },
        { got: own.accuracy, expected: l.C_b!, what: 'C_b' },
        { got: own.scaleShift, expected: l.scale_shift!, what: 'scale' },
        { got: own.locationShift, expected: l.location_shift!, what: 'location' },
        { got: own.standardError!, expected: l.se!, what: 'se' },
        ...lists(own.interval!, l.ci95_z, 'ci'),
      ]),
    ).toBeLessThan(1e-9);
    const five = [1, 2, 3, 4, 5];
    expect(
      linConcordance(
        five,
        five.map((x) => x + 1),
      )!.coefficient,
    ).toBeCloseTo(r.ccc_shift_by_1_of_1_to_5, 12);
    expect(
      linConcordance(
        five,
        five.map((x) => 2 * x),
      )!.coefficient,
    ).toBeCloseTo(r.ccc_scale_by_2_of_1_to_5, 12);
  });
  test('too little to say', () => {
    expect(limitsOfAgreement([1], [2])).toBeNull();
    expect(linConcordance([3, 3], [1, 2])).toBeNull();
    expect(() => limitsOfAgreement([1, 2], [1])).toThrow('got 2 and 1');
  });
});
