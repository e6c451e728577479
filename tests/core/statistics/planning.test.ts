import { describe, expect, test } from 'vitest';
import {
  detectableDifference,
  effortNeeded,
  errorDegreesOfFreedom,
  estimateVarianceComponents,
  type FrameObservation,
  plannedStandardErrorOfDifference,
  powerForDifference,
  type TrialEffort,
} from '../../../src/core/statistics/planning.ts';

const groups = (blocks: number): TrialEffort => ({
  design: 'completely-randomized',
  treatments: 2,
  blocks,
  framesPerPlot: 1,
  pointsPerFrame: 1,
});
const unit = { plot: 1, frame: 0, point: 0 };

describe('power', () => {
  // R power.t.test documentation: n = 20, delta = 1, sd = 1 gives power 0.8689528; power = .90 gives n = 22.02110 (from memory)
  test('two groups', () => {
    // R leaves out the far tail, which adds 2e-7
    expect(powerForDifference(groups(20), unit, 1)!).toBeCloseTo(0.8689528, 6);
    expect(effortNeeded('blocks', groups(2), unit, { difference: 1, power: 0.9 }).value).toBe(23);
  });
  // scipy 1.17.1: t = stats.t.isf(.025, 9); stats.ncf.sf(t * t, 1, 9, 36 / (2 * (4 + 9 / 2 + 2100 / 100) / 4))
  test('blocks, frames and points', () => {
    const effort: TrialEffort = {
      design: 'randomized-complete-block',
      treatments: 4,
      blocks: 4,
      framesPerPlot: 2,
      pointsPerFrame: 50,
    };
    const components = { plot: 4, frame: 9, point: 2100 };
    expect(errorDegreesOfFreedom(effort)).toBe(9);
    expect(plannedStandardErrorOfDifference(effort, components) ** 2).toBeCloseTo(
      (2 * (4 + 9 / 2 + 2100 / 100)) / 4,
      10,
    );
    expect(powerForDifference(effort, components, 6)!).toBeCloseTo(0.28745271057906585, 9);
    const difference = detectableDifference(effort, components, 0.8)!;
    expect(powerForDifference(effort, components, difference)!).toBeCloseTo(0.8, 9);
  });
  test('the answer is the least one', () => {
    const effort: TrialEffort = {
      design: 'randomized-complete-block',
      treatments: 5,
      blocks: 4,
      framesPerPlot: 3,
      pointsPerFrame: 100,
    };
    const components = { plot: 5, frame: 10, point: 1600 };
    for (const quantity of ['blocks', 'framesPerPlot', 'pointsPerFrame'] as const) {
      const found = effortNeeded(quantity, effort, components, { difference: 6, power: 0.7 });
      expect(found.power!).toBeGreaterThanOrEqual(0.7);
      const less = { ...effort, [quantity]: found.value! - 1 };
      if (found.value! > 1) expect(powerForDifference(less, components, 6) ?? 0).toBeLessThan(0.7);
    }
  });
  test('where plots differ no number of points is enough', () => {
    const effort: TrialEffort = {
      design: 'randomized-complete-block',
      treatments: 3,
      blocks: 3,
      framesPerPlot: 1,
      pointsPerFrame: 1,
    };
    expect(
      effortNeeded(
        'pointsPerFrame',
        effort,
        { plot: 30, frame: 20, point: 1600 },
        { difference: 5, power: 0.8 },
      ).value,
    ).toBeNull();
  });
  test('few error degrees of freedom are told', () => {
    const effort: TrialEffort = {
      design: 'randomized-complete-block',
      treatments: 3,
      blocks: 4,
      framesPerPlot: 1,
      pointsPerFrame: 100,
    };
    const found = effortNeeded('blocks', effort, unit, { difference: 6, power: 0.8 });
    expect(found.errorDf!).toBeLessThan(12);
    expect(found.notes[0]).toEqual({
      code: 'few-error-degrees-of-freedom',
      values: { df: found.errorDf, wanted: 12 },
    });
  });
  test('impossible wishes', () => {
    expect(powerForDifference(groups(1), unit, 1)).toBeNull();
    expect(() => powerForDifference(groups(0), unit, 1)).toThrow(
      'blocks must be a whole number, 1 or more, got 0',
    );
    expect(() => effortNeeded('blocks', groups(3), unit, { difference: 0, power: 0.8 })).toThrow('got 0');
    expect(() => effortNeeded('blocks', groups(3), unit, { difference: 1, power: 80 })).toThrow('got 80');
  });
});

describe('variance components', () => {
  const frame = (plot: string, treatment: string, value: number, points?: number): FrameObservation => ({
    plot,
    treatment,
    block: null,
    row: null,
    column: null,
    value,
    ...(points === undefined ? {} : { points }),
  });
  // by hand: frames within plots differ by 2, 4, 2, 4: mean square (2 + 8 + 2 + 8) / 4 = 5;
  // plot means 11, 16, 31, 38: within treatments (12.5 + 24.5) / 2 = 18.5; plot 18.5 - 5 / 2 = 16
  const frames = [
    frame('1', 'A', 10),
    frame('1', 'A', 12),
    frame('2', 'A', 14),
    frame('2', 'A', 18),
    frame('3', 'B', 30),
    frame('3', 'B', 32),
    frame('4', 'B', 36),
    frame('4', 'B', 40),
  ];
  test('counted by hand', () => {
    const found = estimateVarianceComponents(frames, 'completely-randomized')!;
    expect(found.frame).toBeCloseTo(5, 12);
    expect(found.plot).toBeCloseTo(16, 12);
    expect(found.point).toBe(0);
  });
  test('points take their binomial part of the frames', () => {
    const counted = frames.map((own) => ({ ...own, points: 1000 }));
    const found = estimateVarianceComponents(counted, 'completely-randomized')!;
    const point = frames.reduce((sum, { value }) => sum + value * (100 - value), 0) / frames.length;
    expect(found.point).toBeCloseTo(point, 10);
    expect(found.frame).toBeCloseTo(5 - point / 1000, 10);
  });
  test('one frame a plot says nothing about frames', () => {
    expect(
      estimateVarianceComponents([frames[0]!, frames[2]!, frames[4]!], 'completely-randomized'),
    ).toBeNull();
  });
});
