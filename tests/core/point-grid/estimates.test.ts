import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { CallCounts } from '../../../src/core/point-grid/callCounts.ts';
import {
  estimatePlotCover,
  estimateTransectCover,
  estimateTreatmentCover,
} from '../../../src/core/point-grid/clusteredEstimate.ts';
import {
  effortOptions,
  framesAgainstPoints,
  planFrameCount,
} from '../../../src/core/point-grid/countPlan.ts';
import { observerAgreement, type VerdictPair } from '../../../src/core/point-grid/observerAgreement.ts';
import { belowWithoutHits, estimateFrameCover } from '../../../src/core/point-grid/pointEstimate.ts';
import {
  drawReferencePhotos,
  type ReferenceCandidate,
} from '../../../src/core/point-grid/referencePhotos.ts';
import { studentTCritical } from '../../../src/core/statistics/distributions/studentT.ts';
import { estimateVarianceComponents } from '../../../src/core/statistics/planning.ts';
import { goodmanIntervals } from '../../../src/core/statistics/proportions/multinomialIntervals.ts';
import { wilsonFromSquare } from '../../../src/core/statistics/proportions/proportionInterval.ts';
import { referenceValues } from '../../support/referenceValues.ts';

const counted = (hits: readonly number[], indeterminate = 0): CallCounts => ({
  hits,
  indeterminate,
  unlabelled: 0,
  outside: 0,
});

describe('one frame', () => {
  // R: prop.test(15, 100, correct = FALSE) and the like, see the reference values
  const wilson = referenceValues<{ computed_95: { x: number; n: number; wilson: [number, number] }[] }>(
    'proportion-ci.json',
  ).computed_95;
  test('each class has the interval of R', () => {
    expect(wilson.length).toBeGreaterThan(5);
    for (const { x, n, wilson: expected } of wilson) {
      const { interval, coverFraction } = estimateFrameCover(counted([x, n - x])).classes[0]!;
      expect(coverFraction).toBe(x / n);
      expect(interval!.low).toBeCloseTo(expected[0], 10);
      expect(interval!.high).toBeCloseTo(expected[1], 10);
    }
  });

  test('all classes together have Goodman intervals, wider than each alone', () => {
    const { classes, target, method } = estimateFrameCover(counted([70, 20, 10]));
    expect([target, method]).toEqual(['frame', 'independent-points']);
    const goodman = goodmanIntervals([70, 20, 10], 0.95);
    classes.forEach(({ simultaneous, interval }, j) => {
      expect(simultaneous).toEqual(goodman[j]);
      expect(simultaneous!.high).toBeGreaterThan(interval!.high);
    });
  });

  test('no hit is "below", exact and one-sided', () => {
    const { classes } = estimateFrameCover(counted([100, 0]));
    // by hand: with a cover of b, none of 100 points hits in 5 % of counts: (1 - b)^100 = 0.05
    expect((1 - classes[1]!.belowFraction!) ** 100).toBeCloseTo(0.05, 12);
    expect(classes[0]!.belowFraction).toBeNull();
    expect(classes[0]!.interval!.high).toBe(1);
    expect(belowWithoutHits(1, 0.95)).toBeCloseTo(0.95, 12);
  });

  test('one point is a figure with a very wide interval', () => {
    const { classes, notes } = estimateFrameCover(counted([1, 0, 0]));
    expect(classes[0]!.coverFraction).toBe(1);
    // Wilson at 1 of 1: 1 / (1 + z^2) to 1
    expect(classes[0]!.interval!.low).toBeCloseTo(1 / (1 + 1.959963984540054 ** 2), 12);
    expect(notes).toEqual([]);
  });

  test('all "cannot tell" is no figure, not 0 %', () => {
    const { classes, points, indeterminate, notes } = estimateFrameCover(counted([0, 0, 0], 25));
    expect([points, indeterminate]).toEqual([0, 25]);
    for (const entry of classes) {
      expect(entry).toMatchObject({
        coverFraction: null,
        standardError: null,
        interval: null,
        simultaneous: null,
      });
      expect(entry.belowFraction).toBeNull();
      expect(entry.ifIndeterminate).toEqual({ low: 0, high: 1 });
    }
    expect(notes.map(({ code }) => code)).toEqual(['no-points-judged', 'indeterminate-many']);
  });

  test('indeterminate points stand apart, with the range they could give', () => {
    const { classes, notes } = estimateFrameCover(counted([60, 30], 10));
    expect(classes[1]!.coverFraction).toBeCloseTo(1 / 3, 12);
    expect(classes[1]!.ifIndeterminate).toEqual({ low: 0.3, high: 0.4 });
    expect(notes).toEqual([{ code: 'indeterminate-many', count: 10 }]);
  });
});

/** Computed by fixtures/clusters.py with statsmodels and scipy. */
const clusters = JSON.parse(readFileSync(new URL('./fixtures/clusters.json', import.meta.url), 'utf8')) as {
  name: string;
  hits: number[];
  points: number[];
  cover: number;
  standardError: number;
  low: number;
  high: number;
}[];

describe('a plot from several frames', () => {
  test.each(clusters)(
    '$name: as a cluster-robust regression',
    ({ hits, points, cover, standardError, low, high }) => {
      const frames = hits.map((count, i) => counted([count, points[i]! - count]));
      const estimate = estimatePlotCover(frames);
      expect([estimate.target, estimate.method]).toEqual(['plot', 'frames-as-clusters']);
      const first = estimate.classes[0]!;
      expect(first.coverFraction).toBeCloseTo(cover, 12);
      expect(first.standardError! / standardError).toBeCloseTo(1, 9);
      expect(first.interval!.low).toBeCloseTo(low, 8);
      expect(first.interval!.high).toBeCloseTo(high, 8);
    },
  );

  test('frames of one size: the error is the spread of the frames, by hand', () => {
    // covers 10, 20 and 30 %: standard deviation 10, divided by the root of 3
    const frames = [5, 10, 15].map((hits) => counted([hits, 50 - hits]));
    const { classes } = estimatePlotCover(frames);
    expect(classes[0]!.coverFraction).toBeCloseTo(0.2, 12);
    expect(classes[0]!.standardError).toBeCloseTo(0.1 / Math.sqrt(3), 12);
    // two classes: hits of the one are misses of the other
    expect(classes[1]!.interval!.high).toBeCloseTo(1 - classes[0]!.interval!.low, 12);
  });

  test('frames that happen to be nearly alike do not make the points tell more than independent ones', () => {
    const frames = [10, 10, 11].map((hits) => counted([hits, 50 - hits]));
    const { interval } = estimatePlotCover(frames).classes[0]!;
    const t = studentTCritical(0.05, 2);
    const asIndependent = wilsonFromSquare(31, 150, t * t);
    expect(interval!.low).toBeCloseTo(asIndependent.low, 12);
    expect(interval!.high).toBeCloseTo(asIndependent.high, 12);
  });

  test('one frame says nothing of the plot', () => {
    const { classes, notes } = estimatePlotCover([counted([5, 45])]);
    expect(classes[0]).toMatchObject({
      coverFraction: 0.1,
      standardError: null,
      interval: null,
      simultaneous: null,
    });
    expect(notes).toEqual([{ code: 'one-frame', count: null }]);
  });

  test('a frame of "cannot tell" is left out and noted', () => {
    const { classes, notes, points } = estimatePlotCover([
      counted([5, 45]),
      counted([8, 42]),
      counted([0, 0], 50),
    ]);
    expect(points).toBe(100);
    expect(classes[0]!.coverFraction).toBeCloseTo(0.13, 12);
    expect(notes).toEqual([
      { code: 'frames-without-points', count: 1 },
      { code: 'indeterminate-many', count: 33 },
    ]);
  });

  test('no hit in any frame: an upper bound wider than for as many independent points, and a note', () => {
    const { classes, notes } = estimatePlotCover([1, 2, 3].map(() => counted([50, 0])));
    expect(classes[1]!.belowFraction).toBe(classes[1]!.interval!.high);
    expect(classes[1]!.belowFraction).toBeGreaterThan(belowWithoutHits(150, 0.95));
    expect(notes).toEqual([{ code: 'no-spread-seen', count: 2 }]);
  });

  test('transect lines count as the frames of a plot do, for the frame they lie in', () => {
    const lines = [5, 10, 15].map((hits) => counted([hits, 50 - hits]));
    const { target, method, classes } = estimateTransectCover(lines);
    expect([target, method]).toEqual(['frame', 'lines-as-clusters']);
    expect(classes).toEqual(estimatePlotCover(lines).classes);
    expect(estimateTransectCover([lines[0]!]).notes).toEqual([{ code: 'one-line', count: null }]);
  });

  test('frames of different classes are a mistake of the caller', () => {
    expect(() => estimatePlotCover([])).toThrow('got none');
    expect(() => estimatePlotCover([counted([1, 2]), counted([1, 2, 3])])).toThrow('2 and of 3 classes');
  });
});

describe('the mean of a treatment', () => {
  test('plots weigh alike, and their spread is the error', () => {
    const plots = [
      [counted([5, 45])],
      [counted([10, 40]), counted([10, 40]), counted([10, 40])],
      [counted([15, 35])],
    ];
    const estimate = estimateTreatmentCover(plots);
    expect([estimate.target, estimate.method]).toEqual(['treatment-mean', 'between-plots']);
    expect(estimate.classes[0]!.coverFraction).toBeCloseTo(0.2, 12);
    expect(estimate.classes[0]!.standardError).toBeCloseTo(0.1 / Math.sqrt(3), 12);
    expect(estimateTreatmentCover([plots[0]!]).notes).toEqual([{ code: 'one-plot', count: null }]);
    expect(estimateTreatmentCover([...plots, [counted([0, 0], 9)]]).notes).toContainEqual({
      code: 'plots-without-points',
      count: 1,
    });
  });
});

describe('planning a count', () => {
  test('half-width and smallest noticeable cover', () => {
    const plan = planFrameCount(0.2, 100);
    const { interval } = estimateFrameCover(counted([20, 80])).classes[0]!;
    expect(plan.halfWidth).toBeCloseTo((interval!.high - interval!.low) / 2, 12);
    expect((1 - plan.smallestNoticeable) ** 100).toBeCloseTo(0.05, 12);
    expect(() => planFrameCount(1.2, 100)).toThrow('cover');
    expect(() => planFrameCount(0.2, 0)).toThrow('points');
  });

  test('where frames differ, frames buy more than points', () => {
    // by hand: frames 25, points 1600 / 100: sqrt(41), sqrt(41 / 2), sqrt(33)
    const plan = framesAgainstPoints(1, 100, { frame: 25, point: 1600 });
    expect(plan.standardError).toBeCloseTo(Math.sqrt(41), 12);
    expect(plan.withTwiceTheFrames).toBeCloseTo(Math.sqrt(20.5), 12);
    expect(plan.withTwiceThePoints).toBeCloseTo(Math.sqrt(33), 12);
    expect(plan.better).toBe('frames');
    expect(plan.pointShare).toBeCloseTo(16 / 41, 12);
    expect(framesAgainstPoints(2, 50, { frame: 0, point: 1600 }).better).toBe('same');
    const options = effortOptions(100, 4, { frame: 25, point: 1600 });
    expect(options.map(({ pointsPerFrame }) => pointsPerFrame)).toEqual([100, 50, 33, 25]);
    const errors = options.map(({ standardError }) => standardError);
    expect(errors).toEqual([...errors].sort((a, b) => b - a));
  });

  test('components come from an earlier trial', () => {
    const frames = ['1', '2'].flatMap((treatment, t) =>
      [1, 2, 3].flatMap((block) =>
        [0, 1].map((frame) => ({
          plot: `${block}0${treatment}`,
          block: String(block),
          treatment,
          row: null,
          column: null,
          value: 10 + 10 * t + block + (frame ? 3 : -3) + (t === 1 && block === 2 ? 4 : 0),
          points: 100,
        })),
      ),
    );
    const components = estimateVarianceComponents(frames, 'randomized-complete-block')!;
    // frames 3 above and below their mean: variance 18, less what 100 points explain
    expect(components.frame).toBeGreaterThan(0);
    expect(framesAgainstPoints(1, 100, components).better).toBe('frames');
  });
});

describe('observers', () => {
  const repeat = (pair: VerdictPair, times: number): VerdictPair[] =>
    Array.from({ length: times }, () => pair);

  test('kappa over all points, bias and spread over photos, by hand', () => {
    // agreement 35 / 50 = 0.7, by chance 0.5 x 0.6 + 0.5 x 0.4 = 0.5, kappa 0.2 / 0.5
    const photos = [
      [...repeat([0, 0], 20), ...repeat([0, 1], 5)],
      [...repeat([1, 0], 10), ...repeat([1, 1], 15), ...repeat([null, 1], 3)],
    ];
    const agreement = observerAgreement(photos, 2);
    expect(agreement.table).toEqual([
      [20, 5],
      [10, 15],
    ]);
    expect(agreement.kappa!.kappa).toBeCloseTo(0.4, 12);
    expect([agreement.points, agreement.indeterminate]).toEqual([50, 3]);
    // shares of class 0: 100 against 80 %, 0 against 40 %: differences 20 and -40
    expect(agreement.classes[0]!.bias).toBeCloseTo(-10, 10);
    expect(agreement.classes[0]!.limits!.standardDeviation).toBeCloseTo(Math.sqrt(1800), 10);
  });

  test('an observer who sees only one class, and one who can never tell', () => {
    const only = observerAgreement([repeat([0, 0], 10)], 2);
    expect(only.kappa!.kappa).toBeNull();
    expect(only.classes[0]).toEqual({ bias: 0, limits: null });
    const never = observerAgreement([repeat([null, 1], 10)], 2);
    expect(never).toMatchObject({ points: 0, indeterminate: 10, kappa: null });
    expect(never.classes[0]).toEqual({ bias: null, limits: null });
    expect(() => observerAgreement([[[2, 0]]], 2)).toThrow('verdicts 2 and 0');
  });
});

describe('photos for reference points', () => {
  const candidates: ReferenceCandidate[] = ['1', '2'].flatMap((treatment) =>
    Array.from({ length: 8 }, (_, i) => ({
      photo: `${treatment}-${i}.jpg`,
      treatment,
      hasStrokes: i === 0,
      isInReviewQueue: i === 0 || i === 1 || (treatment === '2' && i > 3),
    })),
  );

  test('never one with strokes or from the review queue, and what that leaves out is told', () => {
    for (let seed = 0; seed < 50; seed += 1) {
      const [first, second] = drawReferencePhotos(candidates, 3, seed);
      expect(new Set(first!.photos).size).toBe(3);
      for (const photo of first!.photos) expect(['1-0.jpg', '1-1.jpg']).not.toContain(photo);
      expect(first).toMatchObject({ treatment: '1', drawnFrom: 6, withStrokes: 1, inReviewQueue: 1 });
      expect([...second!.photos].sort()).toEqual(['2-2.jpg', '2-3.jpg']);
      expect(second).toMatchObject({ drawnFrom: 2, withStrokes: 1, inReviewQueue: 5 });
    }
  });

  test('the same seed draws the same photos, in whatever order they were added; all are equally likely', () => {
    const drawn = drawReferencePhotos(candidates, 2, 9);
    const reversed = drawReferencePhotos([...candidates].reverse(), 2, 9);
    expect(reversed.find(({ treatment }) => treatment === '1')).toEqual(drawn[0]);
    const times = new Map<string, number>();
    for (let seed = 0; seed < 3000; seed += 1) {
      for (const photo of drawReferencePhotos(candidates, 2, seed)[0]!.photos) {
        times.set(photo, (times.get(photo) ?? 0) + 1);
      }
    }
    // 2 of 6 each time: 1000 expected, standard deviation 26
    expect(times.size).toBe(6);
    for (const count of times.values()) expect(Math.abs(count - 1000)).toBeLessThan(130);
    expect(() => drawReferencePhotos(candidates, 0, 1)).toThrow('1 or more');
  });
});
