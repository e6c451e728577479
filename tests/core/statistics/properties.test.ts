import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { analyseTreatments } from '../../../src/core/statistics/analyseTreatments.ts';
import { analyseOverDates, type DatedObservation } from '../../../src/core/statistics/overDates.ts';
import { percentControlTable } from '../../../src/core/statistics/percentControlTable.ts';
import type { PlotObservation } from '../../../src/core/statistics/plotObservation.ts';
import type { TreatmentAnalysis } from '../../../src/core/statistics/treatmentAnalysis.ts';

const RUNS = { seed: 20270517, numRuns: 60 };
const BLOCKS = { design: 'randomized-complete-block', control: 'T0' } as const;

/** A trial in blocks with some plots missing; each treatment keeps its plot in block 0, so that everything is connected. */
const trial = fc
  .record({ treatments: fc.integer({ min: 2, max: 6 }), blocks: fc.integer({ min: 3, max: 5 }) })
  .chain(({ treatments, blocks }) =>
    fc.record({
      values: fc.array(fc.integer({ min: 0, max: 1000 }), {
        minLength: treatments * blocks,
        maxLength: treatments * blocks,
      }),
      missing: fc.array(fc.integer({ min: treatments, max: treatments * blocks - 1 }), { maxLength: 2 }),
      treatments: fc.constant(treatments),
    }),
  )
  .map(({ values, missing, treatments }): PlotObservation[] =>
    values.flatMap((value, index) => {
      const block = Math.floor(index / treatments);
      if (missing.includes(index)) return [];
      const treatment = `T${index % treatments}`;
      return [
        {
          plot: `${block}-${treatment}`,
          treatment,
          block: `B${block}`,
          row: null,
          column: null,
          value: value / 10,
        },
      ];
    }),
  );

/** All numbers of a result in a fixed order; `label` puts names back that a test has changed. */
function numbers(
  analysis: TreatmentAnalysis,
  label = (name: string): string => name,
): Map<string, number | null> {
  const out = new Map<string, number | null>();
  for (const row of analysis.anova) {
    out.set(`${row.source} ss`, row.sumOfSquares);
    out.set(`${row.source} f`, row.f);
    out.set(`${row.source} p`, row.p);
  }
  for (const own of analysis.treatments) {
    out.set(`mean ${label(own.treatment)}`, own.mean);
    out.set(`se ${label(own.treatment)}`, own.standardError);
    out.set(`dunnett ${label(own.treatment)}`, own.dunnett?.p ?? null);
  }
  for (const pair of analysis.pairs) {
    const [a, b] = [label(pair.a), label(pair.b)];
    const sign = a < b ? 1 : -1;
    const key = a < b ? `${a}-${b}` : `${b}-${a}`;
    out.set(`difference ${key}`, pair.difference === null ? null : sign * pair.difference);
    out.set(`lsd ${key}`, pair.pLsd);
    out.set(`tukey ${key}`, pair.pTukey);
  }
  out.set('cv', analysis.coefficientOfVariation);
  return out;
}

function expectSame(
  got: Map<string, number | null>,
  expected: Map<string, number | null>,
  tolerance = 1e-7,
): void {
  expect([...got.keys()].sort()).toEqual([...expected.keys()].sort());
  for (const [key, value] of expected) {
    const own = got.get(key)!;
    if (value === null || own === null) expect(own, key).toBe(value);
    else {
      // with missing plots Dunnett's p is integrated in the order of the names, to 1e-4
      const allowed = key.startsWith('dunnett') ? 1e-4 : tolerance;
      expect(Math.abs(own - value), key).toBeLessThanOrEqual(allowed * Math.max(1, Math.abs(value)));
    }
  }
}

/** Every number of a result, however deep, is finite. */
function expectFinite(value: unknown, path = ''): void {
  if (typeof value === 'number') expect(Number.isFinite(value), path).toBe(true);
  else if (Array.isArray(value)) for (const [i, own] of value.entries()) expectFinite(own, `${path}[${i}]`);
  else if (typeof value === 'object' && value !== null) {
    for (const [key, own] of Object.entries(value)) expectFinite(own, `${path}.${key}`);
  }
}

describe('what must not change a comparison', () => {
  test('the order of the rows: not a single digit', () => {
    fc.assert(
      fc.property(trial, fc.infiniteStream(fc.nat()), (plots, order) => {
        const keys = new Map(plots.map((plot) => [plot, order.next().value]));
        const shuffled = [...plots].sort((a, b) => keys.get(a)! - keys.get(b)!);
        expect(analyseTreatments(shuffled, BLOCKS)).toEqual(analyseTreatments(plots, BLOCKS));
      }),
      RUNS,
    );
  });
  test('the names of treatments', () => {
    fc.assert(
      fc.property(trial, (plots) => {
        const back = new Map<string, string>();
        const rename = (name: string): string => {
          const other = `x${9 - Number(name.slice(1))}`;
          back.set(other, name);
          return other;
        };
        const renamed = plots.map((plot) => ({ ...plot, treatment: rename(plot.treatment) }));
        const got = analyseTreatments(renamed, { ...BLOCKS, control: rename('T0') });
        expectSame(
          numbers(got, (name) => back.get(name)!),
          numbers(analyseTreatments(plots, BLOCKS)),
        );
      }),
      RUNS,
    );
  });
  test('a constant added to one block leaves differences, F of treatments and all p alone', () => {
    fc.assert(
      fc.property(trial, fc.integer({ min: -50, max: 50 }), (plots, shift) => {
        const moved = plots.map((plot) =>
          plot.block === 'B1' ? { ...plot, value: plot.value + shift } : plot,
        );
        const kept = (analysis: TreatmentAnalysis) =>
          new Map([...numbers(analysis)].filter(([key]) => !/^(block|mean|cv)/.test(key)));
        expectSame(kept(analyseTreatments(moved, BLOCKS)), kept(analyseTreatments(plots, BLOCKS)));
      }),
      RUNS,
    );
  });
  test('the unit: means and errors scale, F, p and letters stay', () => {
    fc.assert(
      fc.property(trial, fc.constantFrom(0.01, 0.5, 10, 1000), (plots, unit) => {
        const before = analyseTreatments(plots, BLOCKS);
        const after = analyseTreatments(
          plots.map((plot) => ({ ...plot, value: plot.value * unit })),
          BLOCKS,
        );
        const scaled = new Map(
          [...numbers(before)].map(([key, value]) => {
            const power = / ss$/.test(key) ? 2 : /^(mean|se|difference) /.test(key) ? 1 : 0;
            return [key, value === null ? null : value * unit ** power];
          }),
        );
        expectSame(numbers(after), scaled);
        expect(after.treatments.map((own) => own.lettersHsd)).toEqual(
          before.treatments.map((own) => own.lettersHsd),
        );
      }),
      RUNS,
    );
  });
});

describe('balanced trials agree with the closed formulas', () => {
  test('sums of squares of complete blocks', () => {
    fc.assert(
      fc.property(trial, (plots) => {
        const treatments = [...new Set(plots.map((plot) => plot.treatment))];
        const blocks = [...new Set(plots.map((plot) => plot.block!))];
        fc.pre(plots.length === treatments.length * blocks.length);
        const mean = (own: readonly PlotObservation[]): number =>
          own.reduce((sum, { value }) => sum + value, 0) / own.length;
        const grand = mean(plots);
        const squares = (names: readonly string[], key: 'treatment' | 'block', n: number): number =>
          names.reduce(
            (sum, name) => sum + n * (mean(plots.filter((plot) => plot[key] === name)) - grand) ** 2,
            0,
          );
        const [block, treatment, residual] = analyseTreatments(plots, BLOCKS).anova;
        const total = plots.reduce((sum, { value }) => sum + (value - grand) ** 2, 0);
        const expected = [
          squares(blocks, 'block', treatments.length),
          squares(treatments, 'treatment', blocks.length),
        ];
        expect(block!.sumOfSquares).toBeCloseTo(expected[0]!, 7);
        expect(treatment!.sumOfSquares).toBeCloseTo(expected[1]!, 7);
        expect(residual!.sumOfSquares).toBeCloseTo(total - expected[0]! - expected[1]!, 6);
      }),
      RUNS,
    );
  });
});

describe('degenerate trials say so in words and give no number that is none', () => {
  const one = (treatment: string, block: string | null, value: number): PlotObservation => ({
    plot: `${block}-${treatment}`,
    treatment,
    block,
    row: null,
    column: null,
    value,
  });
  const codes = (analysis: TreatmentAnalysis): string[] => analysis.notes.map(({ code }) => code);
  const free = { design: 'completely-randomized' } as const;

  test('any values at all, ties included', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.constantFrom('T0', 'A', 'B'), fc.constantFrom(0, 0, 0.1, 5, 100)), {
          minLength: 1,
          maxLength: 9,
        }),
        fc.constantFrom('none', 'arcsine-square-root', 'log'),
        (cells, transform) => {
          const plots = cells.map(([treatment, value], i) => ({
            ...one(treatment, null, value),
            plot: String(i),
          }));
          expectFinite(analyseTreatments(plots, { ...free, control: 'T0', transform }));
          expectFinite(percentControlTable(plots, { ...free, control: 'T0' }));
        },
      ),
      { seed: 20270621, numRuns: 300 },
    );
  });
  test('one treatment left', () => {
    const analysis = analyseTreatments([one('A', 'B1', 3), one('A', 'B2', 5)], BLOCKS);
    expect(codes(analysis)).toContain('one-treatment');
    expect(analysis.anova.find(({ source }) => source === 'treatment')).toMatchObject({
      df: 0,
      f: null,
      p: null,
    });
    expect(analysis.treatments[0]!.mean).toBe(4);
  });
  test('single replicate', () => {
    const analysis = analyseTreatments([one('A', null, 3), one('B', null, 5)], free);
    expect(codes(analysis)).toEqual(
      expect.arrayContaining(['single-replicate', 'no-error-degrees-of-freedom']),
    );
    expect(analysis.pairs[0]).toMatchObject({
      difference: expect.closeTo(-2, 10),
      standardError: null,
      pLsd: null,
      pTukey: null,
    });
    expect(analysis.treatments[0]).toMatchObject({
      mean: expect.closeTo(3, 10),
      standardError: null,
      lettersLsd: null,
      lettersHsd: null,
    });
  });
  test('no variation within treatments, at awkward decimals too', () => {
    const plots = ['B1', 'B2', 'B3'].flatMap((block) => [one('A', block, 0.1), one('T0', block, 33.3)]);
    const analysis = analyseTreatments(plots, BLOCKS);
    expect(codes(analysis)).toContain('zero-error-variance');
    expect(analysis.anova.every(({ f, p }) => f === null && p === null)).toBe(true);
    expect(analysis.treatments[0]!.dunnett).toEqual({
      difference: expect.closeTo(-33.2, 10),
      p: null,
      low: null,
      high: null,
    });
    expect(analysis.leastSignificantDifference.value).toBeNull();
  });
  test('a treatment of zeros among others', () => {
    const plots = [2, 4, 7].flatMap((value, i) => [one('A', `B${i}`, 0), one('T0', `B${i}`, value)]);
    const note = analyseTreatments(plots, BLOCKS).notes.find(
      ({ code }) => code === 'treatment-without-variation',
    );
    expect(note!.values).toEqual({ treatments: ['A'], values: ['0'] });
  });
  test('all zero: no coefficient of variation', () => {
    const analysis = analyseTreatments(
      [one('A', null, 0), one('A', null, 0), one('B', null, 0), one('B', null, 0)],
      free,
    );
    expect(analysis.coefficientOfVariation).toBeNull();
    expect(codes(analysis)).toContain('mean-not-positive');
  });
  test('a treatment in a block of its own cannot be told from the block', () => {
    const plots = [
      one('A', 'B1', 1),
      one('B', 'B1', 2),
      one('A', 'B2', 3),
      one('B', 'B2', 5),
      one('C', 'B3', 9),
      one('C', 'B3', 8),
    ];
    const analysis = analyseTreatments(plots, BLOCKS);
    expect(codes(analysis)).toContain('not-estimable');
    const pair = (a: string, b: string) => analysis.pairs.find((own) => own.a === a && own.b === b)!;
    expect(pair('A', 'B').difference).toBeCloseTo(-1.5, 10);
    expect(pair('A', 'C').difference).toBeNull();
  });
  test('control missing', () => {
    const analysis = analyseTreatments(
      [one('A', null, 3), one('A', null, 4), one('B', null, 5), one('B', null, 5)],
      { ...free, control: 'T0' },
    );
    expect(codes(analysis)).toContain('control-missing');
    expect(analysis.treatments.every(({ dunnett }) => dunnett === null)).toBe(true);
  });
});

describe('over dates', () => {
  /** Values from a fixed rule, so that two runs see the same numbers. */
  const rated = (treatments: number, dates: number, blocks: number): DatedObservation[] => {
    let state = 7;
    const noise = (): number => {
      state = (state * 48271) % 2147483647;
      return state / 2147483647 - 0.5;
    };
    return Array.from({ length: blocks }, (_, b) =>
      Array.from({ length: treatments }, (_, t) => {
        const plot = 4 * noise();
        return Array.from(
          { length: dates },
          (_, d): DatedObservation => ({
            plot: `${b}-${t}`,
            treatment: `T${t}`,
            block: `B${b}`,
            row: null,
            column: null,
            ratingDate: `2027-0${1 + Math.floor(d / 28)}-${String(1 + (d % 28)).padStart(2, '0')}`,
            value: 20 + 3 * t + b + 0.5 * d + plot + 3 * noise(),
          }),
        );
      }),
    ).flat(2);
  };
  const options = { design: 'randomized-complete-block', control: 'T0' } as const;

  test('with nearly complete plots the mixed model stays near the split plot', () => {
    const all = rated(4, 5, 4);
    const split = analyseOverDates(all, options)!;
    const mixed = analyseOverDates(all.slice(1), options)!;
    expect(split.mixedModel).toBeNull();
    expect(mixed.splitPlot).toBeNull();
    const treatment = mixed.mixedModel!.tests.find(({ source }) => source === 'treatment')!;
    const row = split.splitPlot!.betweenPlots.find(({ source }) => source === 'treatment')!;
    expect(treatment.f / row.f!).toBeGreaterThan(0.8);
    expect(treatment.f / row.f!).toBeLessThan(1.25);
    expect(treatment.denominatorDf).toBeCloseTo(9, 0);
    expect(mixed.notes.map(({ code }) => code)).toEqual([
      'incomplete-plots',
      'mixed-model-used',
      'area-missing-plots',
    ]);
    expect(mixed.area!.analysis.treatments[0]!.n).toBe(3);
  });
  test('a missed date between others is bridged by the trapezoids', () => {
    const all = rated(3, 4, 3);
    const result = analyseOverDates(
      all.filter((_, i) => i !== 1),
      options,
    )!;
    expect(result.notes.map(({ code }) => code)).toContain('area-bridged');
    const [first, , third, fourth] = all;
    const area = (2 * (first!.value + third!.value)) / 2 + (third!.value + fourth!.value) / 2;
    expect(result.area!.plots.find(({ plot }) => plot === '0-0')!.area).toBeCloseTo(area, 10);
  });
  test('a treatment without any plot on a date is told, not guessed', () => {
    const all = rated(3, 3, 3).filter(
      ({ treatment, ratingDate }) => treatment !== 'T1' || !ratingDate.endsWith('02'),
    );
    const result = analyseOverDates(all, options)!;
    expect(result.mixedModel).toBeNull();
    expect(result.notes.find(({ code }) => code === 'empty-cells')!.values.cells).toEqual([
      'T1 / 2027-01-02',
    ]);
  });
  test('one date is no series', () => {
    expect(analyseOverDates(rated(3, 1, 3), options)).toBeNull();
  });
  test('sixty treatments on one date, thirty dates of five treatments, each in a moment', () => {
    const many = rated(60, 1, 4);
    const started = performance.now();
    const analysis = analyseTreatments(many, options);
    expect(analysis.pairs).toHaveLength(1770);
    expectFinite(analysis);
    const gaps = analyseTreatments(
      many.filter((_, i) => i % 97 !== 5),
      options,
    );
    expectFinite(gaps);
    expect(gaps.notes.map(({ code }) => code)).toContain('missing-plots');
    const dates = analyseOverDates(rated(5, 30, 4), options)!;
    expectFinite(dates);
    const missing = analyseOverDates(
      rated(5, 30, 4).filter((_, i) => i % 41 !== 3),
      options,
    )!;
    expectFinite(missing);
    expect(missing.mixedModel!.tests.map(({ source }) => source)).toEqual([
      'treatment',
      'date',
      'treatment:date',
    ]);
    // a bound against a blow-up, not a measurement
    expect(performance.now() - started).toBeLessThan(15_000);
  });
});
