import { readdirSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { analyseTreatments } from '../../../src/core/statistics/analyseTreatments.ts';
import { designTerms, treatmentFactor } from '../../../src/core/statistics/analysisModel.ts';
import type { AnovaRow } from '../../../src/core/statistics/analysisOfVariance.ts';
import { adjustedAnovaRows } from '../../../src/core/statistics/analysisOfVariance.ts';
import { studentizedRangeCritical } from '../../../src/core/statistics/distributions/studentizedRange.ts';
import { studentTCritical } from '../../../src/core/statistics/distributions/studentT.ts';
import type { PlotObservation } from '../../../src/core/statistics/plotObservation.ts';
import type { TreatmentAnalysis } from '../../../src/core/statistics/treatmentAnalysis.ts';
import { referenceValues } from '../../support/referenceValues.ts';
import { type Checked, worstRelativeDifference } from '../../support/relativeDifference.ts';

/** Expected numbers: R (emmeans, multcomp); the commands stand in each file and in tests/reference-values/r. */
interface AnovaCase {
  readonly data: readonly { treatment: string; block?: string; y: number | null }[];
  readonly expected: {
    readonly anova_sequential_block_then_treatment: readonly RRow[];
    readonly anova_type2: readonly RRow[];
    readonly error_df: number;
    readonly mse: number;
    readonly grand_mean: number;
    readonly cv_percent: number;
    readonly 't_critical_0.05': number;
    readonly 'studentized_range_critical_0.05': number;
    readonly means: readonly {
      treatment: string;
      n: number;
      mean: number;
      lsmean: number;
      se_lsmean_pooled: number;
      ci95_low: number;
      ci95_high: number;
    }[];
    readonly sed?: number;
    readonly 'lsd_0.05'?: number;
    readonly 'tukey_hsd_0.05'?: number;
    readonly pairs: readonly {
      contrast: string;
      estimate: number;
      se: number;
      p_lsd: number;
      'lsd_0.05': number;
      p_tukey: number;
      tukey_low: number;
      tukey_high: number;
      p_holm: number;
    }[];
    readonly 'letters_lsd_0.05': Record<string, string>;
    readonly 'letters_tukey_0.05': Record<string, string>;
    readonly fishers_protected_lsd: { letters_are_shown: boolean };
    readonly dunnett?: {
      control: string;
      comparisons: readonly { contrast: string; estimate: number; p_dunnett: number }[];
    };
    readonly kruskal_wallis?: { chisq: number; df: number; p: number };
    readonly friedman?: { chisq: number; df: number; p: number };
    readonly shapiro_wilk_residuals?: { W: number; p: number };
  };
}
interface RRow {
  readonly term: string;
  readonly df: number;
  readonly ss: number;
  readonly ms: number;
  readonly F: number | null;
  readonly p: number | null;
}

const CASES = [
  'plantgrowth',
  'insectsprays',
  'insectsprays-sqrt',
  'chickwts',
  'warpbreaks-cells',
  'oats-marvellous',
  'oats-marvellous-missing',
  'oats-marvellous-missing2',
  'immer-1931',
  'immer-1932',
  'orchardsprays',
  'npk-cells',
];

/** Printed with 12 digits, so anything above 1e-11 is a difference. */
const CLOSED_FORM = 1e-10;

function plotsOf(data: AnovaCase['data']): PlotObservation[] {
  return data.flatMap(({ treatment, block = null, y }, index) =>
    y === null || y === undefined
      ? []
      : [{ plot: String(index + 1), treatment, block, row: null, column: null, value: y }],
  );
}

function rowChecks(got: readonly AnovaRow[], expected: readonly RRow[]): Checked[] {
  expect(got.map((row) => row.df)).toEqual(expected.map((row) => row.df));
  return got.flatMap((row, index) => {
    const wanted = expected[index]!;
    return [
      { got: row.sumOfSquares, expected: wanted.ss, what: `ss ${wanted.term}` },
      { got: row.meanSquare!, expected: wanted.ms, what: `ms ${wanted.term}` },
      ...(wanted.F === null ? [] : [{ got: row.f!, expected: wanted.F, what: `F ${wanted.term}` }]),
      ...(wanted.p === null ? [] : [{ got: row.p!, expected: wanted.p, what: `p ${wanted.term}` }]),
    ];
  });
}

/** Same groups of sharing: letters may be renamed. */
function sharing(letters: Record<string, string>): string {
  const names = Object.keys(letters).sort();
  return names
    .flatMap((a) =>
      names.map((b) => ([...letters[a]!].some((letter) => letters[b]!.includes(letter)) ? '1' : '0')),
    )
    .join('');
}

describe.each(CASES)('%s', (id) => {
  const reference = referenceValues<AnovaCase>(`anova-${id}.json`);
  const { expected } = reference;
  const plots = plotsOf(reference.data);
  const design = plots[0]!.block === null ? 'completely-randomized' : 'randomized-complete-block';
  const analysis: TreatmentAnalysis = analyseTreatments(plots, {
    design,
    control: expected.dunnett?.control ?? null,
  });

  test('table, error and coefficient of variation', () => {
    const checks = rowChecks(analysis.anova, expected.anova_sequential_block_then_treatment);
    checks.push(
      { got: analysis.meanSquareError!, expected: expected.mse, what: 'mse' },
      { got: analysis.grandMean, expected: expected.grand_mean, what: 'mean' },
      { got: analysis.coefficientOfVariation!, expected: expected.cv_percent, what: 'cv' },
    );
    expect(analysis.errorDf).toBe(expected.error_df);
    expect(worstRelativeDifference(checks)).toBeLessThan(CLOSED_FORM);
  });

  test('each term adjusted for the others', () => {
    const terms = designTerms(
      plots,
      design,
      [{ name: 'treatment', factors: [treatmentFactor(plots)] }],
      false,
    );
    const rows = adjustedAnovaRows(
      plots.map((plot) => plot.value),
      terms,
    );
    expect(worstRelativeDifference(rowChecks(rows, expected.anova_type2))).toBeLessThan(CLOSED_FORM);
  });

  test('least-squares means with standard errors and limits', () => {
    const checks = expected.means.flatMap((mean) => {
      const own = analysis.treatments.find(({ treatment }) => treatment === mean.treatment)!;
      expect(own.n).toBe(mean.n);
      return [
        { got: own.mean!, expected: mean.lsmean, what: mean.treatment },
        { got: own.arithmeticMean, expected: mean.mean, what: mean.treatment },
        { got: own.standardError!, expected: mean.se_lsmean_pooled, what: `se ${mean.treatment}` },
        { got: own.low!, expected: mean.ci95_low, what: `low ${mean.treatment}` },
        { got: own.high!, expected: mean.ci95_high, what: `high ${mean.treatment}` },
      ];
    });
    expect(worstRelativeDifference(checks)).toBeLessThan(CLOSED_FORM);
  });

  test('critical values, LSD and HSD', () => {
    expect(studentTCritical(0.05, expected.error_df) / expected['t_critical_0.05']).toBeCloseTo(1, 10);
    const q = studentizedRangeCritical(0.05, analysis.treatments.length, expected.error_df);
    expect(Math.abs(q / expected['studentized_range_critical_0.05'] - 1)).toBeLessThan(1e-5);
    if (expected.sed === undefined) {
      expect(analysis.leastSignificantDifference.value).toBeNull();
      expect(analysis.notes.map(({ code }) => code)).toContain('unequal-standard-errors');
      return;
    }
    expect(analysis.standardErrorOfDifference! / expected.sed).toBeCloseTo(1, 10);
    expect(analysis.leastSignificantDifference.value! / expected['lsd_0.05']!).toBeCloseTo(1, 10);
    const hsd = analysis.honestlySignificantDifference.value! / expected['tukey_hsd_0.05']!;
    expect(Math.abs(hsd - 1)).toBeLessThan(1e-5);
  });

  test('pairs', () => {
    const exact: Checked[] = [];
    for (const pair of expected.pairs) {
      const [a, b] = pair.contrast.split(' - ').map((name) => name.replace(/^cell(?=\d)/, '')) as [
        string,
        string,
      ];
      const own = analysis.pairs.find((p) => (p.a === a && p.b === b) || (p.a === b && p.b === a))!;
      const sign = own.a === a ? 1 : -1;
      exact.push(
        { got: own.standardError!, expected: pair.se, what: `se ${pair.contrast}` },
        { got: own.leastSignificantDifference!, expected: pair['lsd_0.05'], what: `lsd ${pair.contrast}` },
        { got: own.pLsd!, expected: pair.p_lsd, what: `p ${pair.contrast}` },
        { got: own.pHolm!, expected: pair.p_holm, what: `Holm ${pair.contrast}` },
      );
      // a difference near zero is a rest of rounding on both sides
      expect(Math.abs(own.difference! * sign - pair.estimate)).toBeLessThan(
        CLOSED_FORM * Math.abs(expected.grand_mean),
      );
      expect(Math.abs(own.pTukey! - pair.p_tukey)).toBeLessThan(1e-5);
      const limits = sign === 1 ? [own.low!, own.high!] : [-own.high!, -own.low!];
      expect(Math.abs(limits[0]! - pair.tukey_low)).toBeLessThan(1e-5 * own.honestlySignificantDifference!);
      expect(Math.abs(limits[1]! - pair.tukey_high)).toBeLessThan(1e-5 * own.honestlySignificantDifference!);
    }
    expect(worstRelativeDifference(exact)).toBeLessThan(1e-8);
  });

  test('letters share exactly where R finds no difference', () => {
    const hsd = Object.fromEntries(analysis.treatments.map((t) => [t.treatment, t.lettersHsd!]));
    expect(sharing(hsd)).toBe(sharing(expected['letters_tukey_0.05']));
    const top = [...analysis.treatments].sort((a, b) => b.mean! - a.mean!)[0]!;
    expect(top.lettersHsd).toContain('a');
    if (!expected.fishers_protected_lsd.letters_are_shown) {
      expect(analysis.treatments.every((t) => t.lettersLsd === null)).toBe(true);
      expect(analysis.notes.map(({ code }) => code)).toContain('letters-withheld');
      return;
    }
    const lsd = Object.fromEntries(analysis.treatments.map((t) => [t.treatment, t.lettersLsd!]));
    expect(sharing(lsd)).toBe(sharing(expected['letters_lsd_0.05']));
  });

  test.runIf(expected.dunnett)('Dunnett against the control', () => {
    for (const comparison of expected.dunnett!.comparisons) {
      const name = comparison.contrast.split(' - ')[0]!.replace(/^cell(?=\d)/, '');
      const own = analysis.treatments.find(({ treatment }) => treatment === name)!.dunnett!;
      expect(Math.abs(own.difference! - comparison.estimate)).toBeLessThan(
        CLOSED_FORM * Math.abs(expected.grand_mean),
      );
      expect(Math.abs(own.p! - comparison.p_dunnett), comparison.contrast).toBeLessThan(1e-4);
    }
    expect(
      analysis.treatments.find(({ treatment }) => treatment === expected.dunnett!.control)!.dunnett,
    ).toBeNull();
  });

  test('rank test and normality of residuals', () => {
    const rank = expected.kruskal_wallis ?? expected.friedman;
    const checks: Checked[] = [];
    if (rank) {
      checks.push(
        { got: analysis.rankTest!.chiSquare, expected: rank.chisq, what: 'rank' },
        { got: analysis.rankTest!.p, expected: rank.p, what: 'rank p' },
      );
    }
    expect(worstRelativeDifference(checks)).toBeLessThan(CLOSED_FORM);
    const normal = analysis.residualChecks.shapiroWilk!;
    // R's swilk works in single precision in places: its W agrees to about 1e-7
    expect(Math.abs(normal.w - expected.shapiro_wilk_residuals!.W)).toBeLessThan(1e-6);
    expect(Math.abs(normal.p - expected.shapiro_wilk_residuals!.p)).toBeLessThan(1e-5);
  });
});

test('no reference case is left out', () => {
  const folder = new URL('../../reference-values/', import.meta.url);
  const single = readdirSync(folder).filter(
    (name) => name.startsWith('anova-') && 'expected' in referenceValues<Record<string, unknown>>(name),
  );
  expect(single).toEqual(CASES.map((id) => `anova-${id}.json`).sort());
});

describe('factorial treatments and the Latin square', () => {
  const expected = referenceValues<Record<string, RRow[]>>('anova-factorial.json');
  const cellPlots = (id: string): PlotObservation[] =>
    plotsOf(referenceValues<AnovaCase>(`anova-${id}.json`).data);

  test('wool by tension', () => {
    const plots = cellPlots('warpbreaks-cells').map((plot) => {
      const [wool, tension] = plot.treatment.split('.') as [string, string];
      return { ...plot, factors: { wool, tension } };
    });
    const { factorial } = analyseTreatments(plots, {
      design: 'completely-randomized',
      factors: ['wool', 'tension'],
    });
    const rows = expected.warpbreaks_wool_by_tension!;
    expect(worstRelativeDifference(rowChecks(factorial!.anova, rows))).toBeLessThan(CLOSED_FORM);
    expect(worstRelativeDifference(rowChecks(factorial!.adjusted, rows))).toBeLessThan(CLOSED_FORM);
  });

  test('N, P and K in incomplete blocks: the aliased interaction is left out, as in R', () => {
    // datasets::npk lists its plots block by block, four in each
    const plots = cellPlots('npk-cells').map((plot, index) => {
      const [n, p, k] = plot.treatment.split('') as [string, string, string];
      return { ...plot, block: String(Math.floor(index / 4) + 1), factors: { n, p, k } };
    });
    const analysis = analyseTreatments(plots, {
      design: 'randomized-complete-block',
      factors: ['n', 'p', 'k'],
    });
    const rows = analysis.factorial!.anova.filter((row) => row.df > 0);
    expect(worstRelativeDifference(rowChecks(rows, expected.npk_block_N_P_K!))).toBeLessThan(CLOSED_FORM);
    expect(analysis.notes.map(({ code }) => code)).toContain('not-estimable');
  });

  test('Latin square', () => {
    // datasets::OrchardSprays lists its plots column by column, row positions 1 to 8 in each
    const plots = cellPlots('orchardsprays').map((plot, index) => ({
      ...plot,
      row: plot.block,
      column: String(Math.floor(index / 8) + 1),
    }));
    const analysis = analyseTreatments(plots, { design: 'latin-square' });
    const rows = expected.orchardsprays_latin_square!;
    expect(worstRelativeDifference(rowChecks(analysis.anova, rows))).toBeLessThan(CLOSED_FORM);
  });
});
