import { describe, expect, test } from 'vitest';
import { fitMixedModel } from '../../../src/core/statistics/mixedModel/mixedModel.ts';
import type { MixedModelData } from '../../../src/core/statistics/mixedModel/residualLikelihood.ts';
import { type PlotSeries, splitPlotInTime } from '../../../src/core/statistics/splitPlotInTime.ts';
import { referenceValues } from '../../support/referenceValues.ts';
import { worstRelativeDifference } from '../../support/relativeDifference.ts';

interface RRow {
  readonly term: string;
  readonly df: number;
  readonly ss: number;
  readonly F: number | null;
  readonly p: number | null;
}
/** R: aov with Error(plot), lmer; commands in the file. */
const twoDates = referenceValues<{
  data: { block: string; treatment: string; date: string; y: number }[];
  between_plots: RRow[];
  within_plots: RRow[];
  lmer_block_fixed: MixedReference;
  lmer_block_random: MixedReference;
}>('anova-two-dates-immer.json');
interface MixedReference {
  readonly F: { term: string; num_df: number; den_df: number; F: number; p: number }[];
  readonly variance_components: Record<string, number>;
}

function series(): PlotSeries[] {
  const plots = new Map<string, PlotSeries & { values: number[] }>();
  for (const { block, treatment, y } of twoDates.data) {
    const plot = `${block}/${treatment}`;
    const own = plots.get(plot) ?? { plot: { plot, treatment, block, row: null, column: null }, values: [] };
    own.values.push(y);
    plots.set(plot, own);
  }
  return [...plots.values()];
}

describe('split plot in time', () => {
  test('between and within plots as R prints them', () => {
    const result = splitPlotInTime(series(), 'randomized-complete-block');
    for (const [got, expected] of [
      [result.betweenPlots, twoDates.between_plots],
      [result.withinPlots, twoDates.within_plots],
    ] as const) {
      expect(got.map((row) => row.df)).toEqual(expected.map((row) => row.df));
      const checks = got.flatMap((row, i) => {
        const { term, ss, F, p } = expected[i]!;
        const ofTest =
          F === null
            ? []
            : [
                { got: row.f!, expected: F, what: term },
                { got: row.p!, expected: p!, what: term },
              ];
        return [{ got: row.sumOfSquares, expected: ss, what: term }, ...ofTest];
      });
      expect(worstRelativeDifference(checks)).toBeLessThan(1e-10);
    }
  });
  test('with two dates there is one difference, so nothing to correct', () => {
    const result = splitPlotInTime(series(), 'randomized-complete-block');
    expect(result.greenhouseGeisserEpsilon).toBeCloseTo(1, 12);
    expect(result.withinPlots[0]!.pGreenhouseGeisser).toBeCloseTo(result.withinPlots[0]!.p!, 12);
  });
});

/** Five plots, four dates; numbers of no meaning, chosen so that dates vary unequally. */
const UNEQUAL = [
  ['A', [3, 9, 14, 40]],
  ['A', [5, 8, 19, 22]],
  ['A', [1, 4, 10, 31]],
  ['B', [7, 6, 25, 60]],
  ['B', [2, 9, 21, 35]],
] as const;

test('epsilon by the formula on the covariance of dates', () => {
  const plots = UNEQUAL.map(([treatment, values], i) => ({
    plot: { plot: String(i), treatment, block: null, row: null, column: null },
    values,
  }));
  // Box 1954 as in Winer 1971: k^2 (mean diagonal - grand mean)^2 / ((k - 1) (sum s^2 - 2 k sum row means^2 + k^2 grand mean^2))
  const k = 4;
  const centre = (treatment: string, j: number): number => {
    const own = UNEQUAL.filter(([name]) => name === treatment);
    return own.reduce((sum, [, values]) => sum + values[j]!, 0) / own.length;
  };
  const s = Array.from({ length: k }, (_, i) =>
    Array.from({ length: k }, (_, j) =>
      UNEQUAL.reduce((sum, [name, v]) => sum + (v[i]! - centre(name, i)) * (v[j]! - centre(name, j)), 0),
    ),
  );
  const diagonal = s.reduce((sum, row, i) => sum + row[i]!, 0) / k;
  const rowMeans = s.map((row) => row.reduce((a, b) => a + b, 0) / k);
  const grand = rowMeans.reduce((a, b) => a + b, 0) / k;
  const squares = s.flat().reduce((sum, value) => sum + value ** 2, 0);
  const bottom = squares - 2 * k * rowMeans.reduce((sum, mean) => sum + mean ** 2, 0) + k * k * grand ** 2;
  const expected = (k * k * (diagonal - grand) ** 2) / ((k - 1) * bottom);
  const result = splitPlotInTime(plots, 'completely-randomized');
  expect(result.greenhouseGeisserEpsilon).toBeCloseTo(expected, 12);
  expect(expected).toBeLessThan(0.6);
  const [date] = result.withinPlots;
  expect(date!.pGreenhouseGeisser!).toBeGreaterThan(date!.p!);
});

/** Cell means in the order of their first row, and hypotheses on them. */
function cellModel(rows: readonly { cells: string; y: number }[], random: MixedModelData['random']) {
  const cells = [...new Set(rows.map((row) => row.cells))];
  const data: MixedModelData = {
    response: rows.map((row) => row.y),
    rows: rows.map((row) => [[cells.indexOf(row.cells), 1]]),
    size: cells.length,
    random,
  };
  return { data, cells };
}

describe('mixed model by REML', () => {
  interface MixedOats {
    F: number;
    den_df: number;
    p: number;
    var_block: number;
    var_error: number;
    emmeans: { N: string; mean: number; se: number; df: number }[];
  }
  const oats = referenceValues<Record<'complete' | 'missing', MixedOats>>('anova-mixed-oats.json');

  test.each([
    ['complete', 'anova-oats-marvellous.json'],
    ['missing', 'anova-oats-marvellous-missing.json'],
  ] as const)('blocks random, %s: F, degrees of freedom, means after Kenward and Roger', (which, file) => {
    const expected = oats[which];
    const rows = referenceValues<{ data: { treatment: string; block: string; y: number | null }[] }>(
      file,
    ).data.flatMap((row) =>
      typeof row.y === 'number' ? [{ cells: row.treatment, block: row.block, y: row.y }] : [],
    );
    const { data, cells } = cellModel(rows, [{ name: 'block', levels: rows.map((row) => row.block) }]);
    const fit = fitMixedModel(data)!;
    expect(fit.converged).toBe(true);
    const contrasts = cells
      .slice(1)
      .map((_, i) => Float64Array.from(cells, (_, j) => (j === 0 ? -1 : j === i + 1 ? 1 : 0)));
    const overall = fit.test(contrasts);
    const checks = [
      { got: fit.varianceComponents.block!, expected: expected.var_block, what: 'block' },
      { got: fit.varianceComponents.residual!, expected: expected.var_error, what: 'error' },
      { got: overall.f, expected: expected.F, what: 'F' },
      { got: overall.denominatorDf, expected: expected.den_df, what: 'df' },
      { got: overall.p, expected: expected.p, what: 'p' },
      ...expected.emmeans.flatMap(({ N, mean, se, df }) => {
        const own = fit.test([Float64Array.from(cells, (cell) => (cell === N ? 1 : 0))]);
        return [
          { got: own.estimates[0]!, expected: mean, what: `mean ${N}` },
          { got: own.standardErrors[0]!, expected: se, what: `se ${N}` },
          { got: own.denominatorDf, expected: df, what: `df ${N}` },
        ];
      }),
    ];
    expect(worstRelativeDifference(checks)).toBeLessThan(1e-6);
  });

  test('a plot variance at its bound of 0 leaves the tests to the residual', () => {
    const rows = twoDates.data.map((row) => ({ ...row, cells: `${row.treatment}/${row.date}` }));
    const { data, cells } = cellModel(rows, [
      { name: 'block', levels: rows.map((row) => row.block) },
      { name: 'plot', levels: rows.map((row) => `${row.block}/${row.treatment}`) },
    ]);
    const fit = fitMixedModel(data)!;
    const expected = twoDates.lmer_block_random;
    expect(fit.atZero).toEqual(['plot']);
    const checks = [
      { got: fit.varianceComponents.block!, expected: expected.variance_components.block!, what: 'block' },
      {
        got: fit.varianceComponents.residual!,
        expected: expected.variance_components.Residual!,
        what: 'residual',
      },
    ];
    const treatments = [...new Set(rows.map((row) => row.treatment))];
    const dateFunction = Float64Array.from(
      cells,
      (cell) => (cell.endsWith('/d2') ? 1 : -1) / treatments.length,
    );
    const treatmentFunctions = treatments
      .slice(1)
      .map((name) =>
        Float64Array.from(cells, (cell) =>
          cell.startsWith(`${name}/`) ? 0.5 : cell.startsWith(`${treatments[0]}/`) ? -0.5 : 0,
        ),
      );
    for (const [functions, term] of [
      [treatmentFunctions, 'trt'],
      [[dateFunction], 'date'],
    ] as const) {
      const found = fit.test(functions);
      const wanted = expected.F.find((row) => row.term === term)!;
      checks.push(
        { got: found.f, expected: wanted.F, what: term },
        { got: found.denominatorDf, expected: wanted.den_df, what: term },
        { got: found.p, expected: wanted.p, what: term },
      );
    }
    expect(worstRelativeDifference(checks)).toBeLessThan(1e-6);
  });

  test('the same with blocks fixed', () => {
    const rows = twoDates.data.map((row) => ({ ...row, cells: `${row.treatment}/${row.date}` }));
    const plain = cellModel(rows, [
      { name: 'plot', levels: rows.map((row) => `${row.block}/${row.treatment}`) },
    ]);
    const blocks = [...new Set(rows.map((row) => row.block))];
    const cells = plain.cells.length;
    const data: MixedModelData = {
      ...plain.data,
      size: cells + blocks.length - 1,
      rows: rows.map((row, i) => {
        const block = blocks.indexOf(row.block);
        const columns = blocks
          .slice(1)
          .map((_, j) => [cells + j, block === j + 1 ? 1 : block === 0 ? -1 : 0] as const);
        return [...plain.data.rows[i]!, ...columns];
      }),
    };
    const fit = fitMixedModel(data)!;
    const expected = twoDates.lmer_block_fixed;
    const perBlock = blocks
      .slice(1)
      .map((_, j) => Float64Array.from({ length: data.size }, (_, i) => Number(i === cells + j)));
    const found = fit.test(perBlock);
    const wanted = expected.F.find(({ term }) => term === 'block')!;
    expect(fit.varianceComponents.plot).toBe(0);
    expect(
      worstRelativeDifference([
        {
          got: fit.varianceComponents.residual!,
          expected: expected.variance_components.Residual!,
          what: 'residual',
        },
        { got: found.f, expected: wanted.F, what: 'block F' },
        { got: found.denominatorDf, expected: wanted.den_df, what: 'block df' },
        { got: found.p, expected: wanted.p, what: 'block p' },
      ]),
    ).toBeLessThan(1e-6);
  });
});
