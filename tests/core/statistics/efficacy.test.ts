import { describe, expect, test } from 'vitest';
import { areaUnderCurve } from '../../../src/core/statistics/areaUnderCurve.ts';
import { hendersonTilton, percentControl, schneiderOrelli } from '../../../src/core/statistics/efficacy.ts';
import { lengthOfControl } from '../../../src/core/statistics/lengthOfControl.ts';
import { percentControlTable } from '../../../src/core/statistics/percentControlTable.ts';
import type { PlotObservation } from '../../../src/core/statistics/plotObservation.ts';
import { deltaInterval, fiellerInterval } from '../../../src/core/statistics/ratioInterval.ts';
import {
  applyTransform,
  arcsineSquareRoot,
  arcsineSquareRootOfCounts,
  undoTransform,
} from '../../../src/core/statistics/transforms.ts';
import { referenceValues } from '../../support/referenceValues.ts';

type Case = Record<string, number | null>;
const efficacy = referenceValues<{ cases: Record<string, Case[]> }>('efficacy.json').cases;
const blockwise = referenceValues<{
  untreated_by_block: number[];
  treated_by_block: number[];
  from_means: number;
  mean_of_blockwise: number;
  blockwise: number[];
}>('efficacy-blockwise.json');

function near(got: number | null, expected: number | null): void {
  if (expected === null) expect(got).toBeNull();
  else expect(got).toBeCloseTo(expected, 10);
}

test('Abbott, Henderson-Tilton and Schneider-Orelli', () => {
  for (const c of efficacy.abbott!) near(percentControl(c.untreated!, c.treated!), c.percent_control!);
  for (const c of efficacy.henderson_tilton!) {
    near(
      hendersonTilton(c.untreated_before!, c.untreated_after!, c.treated_before!, c.treated_after!),
      c.corrected_efficacy!,
    );
  }
  for (const c of efficacy.schneider_orelli!) {
    near(schneiderOrelli(c.mortality_untreated_percent!, c.mortality_treated_percent!), c.corrected!);
  }
});

const plots: PlotObservation[] = blockwise.untreated_by_block.flatMap((value, index) => {
  const block = String(index + 1);
  const at = { block, row: null, column: null };
  return [
    { plot: `${block}a`, treatment: 'untreated', value, ...at },
    { plot: `${block}b`, treatment: 'B', value: blockwise.treated_by_block[index]!, ...at },
  ];
});
const options = { design: 'randomized-complete-block', control: 'untreated' } as const;

describe('percent control', () => {
  test('from means and block by block differ when blocks differ', () => {
    const means = percentControlTable(plots, options);
    expect(means.treatments[0]!.percentControl).toBeCloseTo(blockwise.from_means, 10);
    const blocks = percentControlTable(plots, { ...options, basis: 'blocks' });
    expect(blocks.treatments[0]!.percentControl).toBeCloseTo(blockwise.mean_of_blockwise, 10);
    expect(blocks.blocks.map((value) => value.percentControl)).toEqual(blockwise.blockwise);
    expect(blocks.notes[0]).toMatchObject({ code: 'percent-control-choice', values: { basis: 'blocks' } });
  });
  test('below the wanted pressure there is none, and the note says so', () => {
    const low = percentControlTable(plots, { ...options, minimumPressure: 30 });
    expect(low.treatments[0]!.percentControl).toBeNull();
    expect(low.notes[0]).toMatchObject({ code: 'pressure-too-low', values: { minimum: 30 } });
    expect(low.notes[0]!.values.mean).toBeCloseTo(25, 10);
    const byBlock = percentControlTable(plots, { ...options, basis: 'blocks', minimumPressure: 15 });
    expect(byBlock.notes[1]).toMatchObject({ code: 'blocks-left-out', values: { blocks: ['3'] } });
    expect(byBlock.treatments[0]!.percentControl).toBeCloseTo((80 + 70 + 90) / 3, 10);
  });
  test('a control of nothing, a missing control', () => {
    const zero = plots.map((plot) => (plot.treatment === 'untreated' ? { ...plot, value: 0 } : plot));
    expect(percentControlTable(zero, options).notes[0]!.code).toBe('control-is-zero');
    const gone = plots.filter((plot) => plot.treatment !== 'untreated');
    const table = percentControlTable(gone, options);
    expect(table.treatments).toEqual([{ treatment: 'B', percentControl: null, low: null, high: null }]);
    expect(table.notes[0]!.code).toBe('control-missing');
  });
  test('Henderson-Tilton with equal baselines is Abbott; the interval encloses it', () => {
    const baseline = new Map(plots.map((plot) => [plot.plot, 12]));
    const table = percentControlTable(plots, { ...options, baseline });
    expect(table.formula).toBe('henderson-tilton');
    expect(table.treatments[0]!.percentControl).toBeCloseTo(78, 10);
    const uneven = new Map(plots.map((plot, index) => [plot.plot, 10 + ((index * 7) % 5)]));
    const own = percentControlTable(plots, { ...options, baseline: uneven }).treatments[0]!;
    expect(own.low!).toBeLessThan(own.percentControl!);
    expect(own.high!).toBeGreaterThan(own.percentControl!);
  });
});

describe('intervals of a ratio', () => {
  const parts = {
    numerator: 5.5,
    denominator: 25,
    numeratorVariance: 4,
    denominatorVariance: 4,
    covariance: 0,
  };
  test('Fieller: at each limit the difference from it is just significant', () => {
    const { low, high } = fiellerInterval(parts, 2.5)!;
    for (const ratio of [low, high]) {
      const z = parts.numerator - ratio * parts.denominator;
      const variance = parts.numeratorVariance + ratio ** 2 * parts.denominatorVariance;
      expect(Math.abs(z) / Math.sqrt(variance)).toBeCloseTo(2.5, 10);
    }
  });
  test('Fieller has no end when the denominator may be 0; delta is symmetric', () => {
    expect(fiellerInterval({ ...parts, denominator: 3 }, 2.5)).toBeNull();
    const { low, high } = deltaInterval(parts, 2.5);
    expect((low + high) / 2).toBeCloseTo(0.22, 12);
    expect(high - low).toBeCloseTo((2 * 2.5 * Math.sqrt(4 + 0.22 ** 2 * 4)) / 25, 12);
  });
});

test('area under the curve', () => {
  type AreaCase = {
    days: number[] | number;
    y: number[] | number;
    audpc: number;
    mean_over_time: number | null;
  };
  for (const c of referenceValues<{ cases: AreaCase[] }>('audpc.json').cases) {
    const found = areaUnderCurve([c.days].flat(), [c.y].flat());
    near(found.area, c.audpc);
    near(found.meanOverTime, c.mean_over_time);
  }
  expect(() => areaUnderCurve([3, 3], [1, 2])).toThrow('days must rise');
});

test('transformations', () => {
  const reference = referenceValues<{
    rows: { percent: number; degrees: number; degrees_bartlett_n100: number }[];
    back_transform: { mean_degrees: number; percent: number };
    log_and_sqrt: { log10_x_plus_1: { x: number; y: number }[] };
  }>('transforms.json');
  for (const row of reference.rows) {
    near(arcsineSquareRoot(row.percent), row.degrees);
    near(arcsineSquareRootOfCounts(row.percent, 100), row.degrees_bartlett_n100);
    near(undoTransform('arcsine-square-root', row.degrees), row.percent);
  }
  near(
    undoTransform('arcsine-square-root', reference.back_transform.mean_degrees),
    reference.back_transform.percent,
  );
  for (const { x, y } of reference.log_and_sqrt.log10_x_plus_1) {
    near(applyTransform('log', x), y);
    near(undoTransform('log', y), x);
  }
  expect(() => arcsineSquareRoot(105)).toThrow('105');
});

describe('length of control', () => {
  const date = (ratingDate: string, untreated: number, a: number, b: number) => ({
    ratingDate,
    means: new Map([
      ['untreated', untreated],
      ['A', a],
      ['B', b],
    ]),
  });
  const dates = [
    date('2027-04-12', 8, 1, 3),
    date('2027-05-17', 22, 6, 12),
    date('2027-06-21', 35, 11, 9),
    date('2027-07-26', 40, 9, 18),
  ];
  const sown = { control: 'untreated', threshold: 10, countedFrom: '2027-03-08' };

  // counted by hand on a calendar
  test('a bracket of rating dates, counted from sowing', () => {
    const { treatments, notes } = lengthOfControl(dates, sown);
    expect(treatments[0]).toEqual({
      treatment: 'A',
      heldUntil: '2027-05-17',
      passedOn: '2027-06-21',
      heldDays: 70,
      passedDays: 105,
    });
    expect(treatments[1]).toEqual({
      treatment: 'B',
      heldUntil: '2027-04-12',
      passedOn: '2027-05-17',
      heldDays: 35,
      passedDays: 70,
    });
    expect(notes).toEqual([{ code: 'crossed-again', values: { treatments: ['A', 'B'] } }]);
  });
  test('never lost: at least until the last rating', () => {
    const own = lengthOfControl(dates, { ...sown, threshold: 15 }).treatments[0]!;
    expect(own).toMatchObject({ heldUntil: '2027-07-26', passedOn: null, heldDays: 140, passedDays: null });
  });
  test('not shown where the control never passed the threshold', () => {
    const table = lengthOfControl(dates, { ...sown, threshold: 50 });
    expect(table.treatments).toEqual([]);
    expect(table.notes[0]).toMatchObject({ code: 'threshold-not-reached', values: { highest: 40 } });
  });
});
