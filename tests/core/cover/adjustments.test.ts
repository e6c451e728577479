import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { adjustCover } from '../../../src/core/cover/adjustedCover.ts';
import type { Adjustment, ReferencePhoto } from '../../../src/core/cover/adjustment.ts';
import { adjustTreatments } from '../../../src/core/cover/adjustTreatments.ts';
import { equalErrorRates } from '../../../src/core/cover/equalErrorRates.ts';
import {
  addMatrices,
  errorMatrix,
  maskAccuracy,
  maskAgainstPoints,
} from '../../../src/core/cover/errorMatrix.ts';
import { invertErrorRates, pooledErrorRates } from '../../../src/core/cover/invertedErrorRates.ts';
import { matchedBetaInterval } from '../../../src/core/cover/matchedBetaInterval.ts';
import { checkOneMethod, type MethodOfPlot } from '../../../src/core/cover/oneMethod.ts';
import { adjustPhotoCover, adjustTreatmentCover } from '../../../src/core/cover/postStratifiedCover.ts';
import { jeffreysInterval } from '../../../src/core/statistics/proportions/proportionInterval.ts';
import { repeatableRandom } from '../../../src/core/trial/repeatableRandom.ts';

const CLASSES = ['ryegrass', 'weedy-grass', 'bare-ground'];

/** Computed by fixtures/adjustments.py with statsmodels and numpy. */
const outside = JSON.parse(readFileSync(new URL('./fixtures/adjustments.json', import.meta.url), 'utf8')) as {
  photos: number[][][];
  mapped: number[];
  postStratified: { cover: number[]; standardError: number[] };
  inverted: { mapped: number[]; cover: number[]; clusteredVariance: number[] }[];
};
const photos: ReferencePhoto[] = outside.photos.map((counts, i) => ({
  photo: `p${i}`,
  treatment: i < 3 ? '1' : '2',
  counts,
}));

function estimated(adjustment: Adjustment) {
  if (!adjustment.ok) throw new Error(`refused: ${adjustment.code}`);
  return adjustment;
}
const close = (got: readonly number[], expected: readonly number[], within: number) =>
  got.forEach((value, i) => {
    expect(Math.abs(value / expected[i]! - 1)).toBeLessThan(within);
  });

describe('error matrix', () => {
  test('rows are mask classes, columns observed ones, and points without a verdict stand apart', () => {
    const matrix = errorMatrix(
      [
        { maskLabel: 1, classId: 'ryegrass' },
        { maskLabel: 1, classId: 'weedy-grass' },
        { maskLabel: 3, classId: 'bare-ground' },
        { maskLabel: 2, classId: null },
      ],
      CLASSES,
    );
    expect(matrix).toEqual({
      counts: [
        [1, 1, 0],
        [0, 0, 0],
        [0, 0, 1],
      ],
      points: 3,
      indeterminate: 1,
    });
  });

  test('a point that is not measured, or an unknown class, is a mistake of the caller', () => {
    expect(() => errorMatrix([{ maskLabel: 0, classId: 'ryegrass' }], CLASSES)).toThrow('label 0');
    expect(() => errorMatrix([{ maskLabel: 4, classId: 'ryegrass' }], CLASSES)).toThrow('label 4');
    expect(() => errorMatrix([{ maskLabel: 1, classId: 'moss' }], CLASSES)).toThrow('"moss"');
  });

  test('nothing is known of a mask when no point has a verdict', () => {
    const matrix = errorMatrix([{ maskLabel: 2, classId: null }], CLASSES);
    expect(maskAccuracy(matrix, [0.5, 0.3, 0.2], CLASSES)).toBeNull();
    expect(adjustPhotoCover(matrix.counts, [0.5, 0.3, 0.2], CLASSES)).toEqual({
      ok: false,
      code: 'no-points',
    });
  });

  test('agreement across photos is in percentage points, mask less points', () => {
    const pairs = [
      { mask: 0.12, points: 0.1 },
      { mask: 0.26, points: 0.2 },
      { mask: 0.44, points: 0.4 },
    ];
    const agreement = maskAgainstPoints(pairs, [100, 100, 100]);
    expect(agreement.limits!.meanDifference).toBeCloseTo(4, 12);
    expect(agreement.limits!.standardDeviation).toBeCloseTo(2, 12);
    // sqrt of the mean of 100 p (100 - p) / 100 over 10, 20 and 40 %: (9 + 16 + 24) / 3
    expect(agreement.pointNoise).toBeCloseTo(Math.sqrt(49 / 3), 12);
    expect(agreement.concordance!.coefficient).toBeLessThan(1);
    expect(maskAgainstPoints(pairs.slice(0, 1)).limits).toBeNull();
    expect(() => maskAgainstPoints(pairs, [100])).toThrow('3 photos');
  });
});

describe('one photo', () => {
  const counts = [
    [60, 5, 2],
    [3, 18, 0],
    [1, 1, 10],
  ];
  const mapped = [0.66, 0.22, 0.12];

  test('estimate and error are those of the post-stratified estimator, the interval holds the estimate', () => {
    const adjustment = estimated(adjustPhotoCover(counts, mapped, CLASSES));
    const reference = adjustCover({ classes: CLASSES, mappedFraction: mapped, counts });
    expect(adjustment.classes.map(({ coverFraction }) => coverFraction)).toEqual(reference.adjustedFraction);
    expect(adjustment.classes.map(({ standardError }) => standardError)).toEqual(reference.standardError);
    expect(adjustment).toMatchObject({
      target: 'frame',
      estimator: 'post-stratified',
      points: 100,
      photos: 1,
    });
    for (const { coverFraction, interval } of adjustment.classes) {
      expect(interval.low).toBeLessThan(coverFraction);
      expect(interval.high).toBeGreaterThan(coverFraction);
    }
  });

  test('no error seen is not no error: the interval has a width', () => {
    const flawless = [
      [60, 0, 0],
      [0, 25, 0],
      [0, 0, 15],
    ];
    const { classes } = estimated(adjustPhotoCover(flawless, [0.6, 0.25, 0.15], CLASSES));
    expect(classes[1]!.coverFraction).toBeCloseTo(0.25, 12);
    expect(classes[1]!.interval.high - classes[1]!.interval.low).toBeGreaterThan(0.02);
  });

  test('a mask of one class is the plain count', () => {
    const { classes } = estimated(
      adjustPhotoCover(
        [
          [80, 15, 5],
          [0, 0, 0],
          [0, 0, 0],
        ],
        [1, 0, 0],
        CLASSES,
      ),
    );
    expect(classes.map(({ coverFraction }) => coverFraction)).toEqual([0.8, 0.15, 0.05]);
    // one stratum: the matched beta is the beta posterior itself
    const expected = jeffreysInterval(15, 100, 0.95);
    expect(classes[1]!.interval.low).toBeCloseTo(expected.low, 10);
    expect(classes[1]!.interval.high).toBeCloseTo(expected.high, 10);
  });

  test('a class that was never observed is estimated at 0 with an upper bound', () => {
    const { classes } = estimated(
      adjustPhotoCover(
        [
          [60, 5, 0],
          [3, 18, 0],
          [12, 2, 0],
        ],
        mapped,
        CLASSES,
      ),
    );
    expect(classes[2]!.coverFraction).toBe(0);
    expect(classes[2]!.interval.high).toBeGreaterThan(0.005);
  });

  test('a small mask class with few points is counted with the largest one; the sum stays 1', () => {
    const few = [
      [70, 5, 1],
      [3, 20, 0],
      [0, 1, 2],
    ];
    const adjustment = estimated(adjustPhotoCover(few, [0.73, 0.24, 0.03], CLASSES));
    expect(adjustment.collapsed).toEqual(['bare-ground']);
    // by hand: 0.76 x 1/79 of the joined stratum is 6/79 weedy grass, plus 0.24 x 20/23
    expect(adjustment.classes[1]!.coverFraction).toBeCloseTo((0.76 * 6) / 79 + (0.24 * 20) / 23, 12);
    expect(adjustment.classes.reduce((sum, { coverFraction }) => sum + coverFraction, 0)).toBeCloseTo(1, 12);
  });

  test('a large mask class with few points, and one point in all, are refused', () => {
    const few = [
      [70, 5, 1],
      [0, 5, 0],
      [0, 1, 12],
    ];
    expect(adjustPhotoCover(few, [0.7, 0.2, 0.1], CLASSES)).toEqual({
      ok: false,
      code: 'stratum-too-few-points',
      classes: ['weedy-grass'],
      fewest: 10,
    });
    const one = [
      [1, 0, 0],
      [0, 0, 0],
      [0, 0, 0],
    ];
    expect(adjustPhotoCover(one, [1, 0, 0], CLASSES)).toMatchObject({ ok: false, classes: ['ryegrass'] });
  });

  test('a variance that no share can have leaves everything open', () => {
    expect(matchedBetaInterval(0.5, 0.3, 0.95)).toEqual({ low: 0, high: 1 });
    expect(matchedBetaInterval(0, 0.01, 0.95)).toEqual({ low: 0, high: 1 });
  });
});

describe('a treatment from its own points', () => {
  test('cover and error agree with a cluster-robust regression', () => {
    const { classes } = estimated(adjustTreatmentCover(photos, outside.mapped, CLASSES));
    const { cover, standardError } = outside.postStratified;
    close(
      classes.map((entry) => entry.coverFraction),
      cover,
      1e-12,
    );
    close(
      classes.map((entry) => entry.standardError),
      standardError,
      1e-9,
    );
  });

  test('photos without a verdict do not count as photos', () => {
    const empty = CLASSES.map(() => [0, 0, 0]);
    const some = [photos[0]!, { counts: empty }];
    expect(adjustTreatmentCover(some, outside.mapped, CLASSES)).toEqual({
      ok: false,
      code: 'too-few-photos',
      photos: 1,
      fewest: 2,
    });
    expect(adjustTreatmentCover([{ counts: empty }], outside.mapped, CLASSES)).toMatchObject({
      code: 'no-points',
    });
    expect(adjustTreatmentCover([], outside.mapped, CLASSES)).toMatchObject({ code: 'no-points' });
  });
});

describe('pooled error rates', () => {
  test.each(outside.inverted)('the inverse for shares $mapped agrees with numpy', (expected) => {
    const rates = pooledErrorRates(photos, CLASSES);
    if (!rates.ok) throw new Error(rates.code);
    // a mean over endlessly many photos has no rates of its own beside the pooled ones
    const mapped = { mappedFraction: expected.mapped, photos: Number.POSITIVE_INFINITY };
    const { classes } = estimated(invertErrorRates(rates, mapped));
    close(
      classes.map(({ coverFraction }) => coverFraction),
      expected.cover,
      1e-10,
    );
    const variances = classes.map(({ standardError }) => standardError ** 2);
    const free = variances.filter((value, j) => Math.abs(value / expected.clusteredVariance[j]! - 1) < 1e-6);
    expect(free.length).toBeGreaterThanOrEqual(2);
    // the others stand at the floor of independent points
    variances.forEach((value, j) => {
      expect(value).toBeGreaterThan(expected.clusteredVariance[j]! * (1 - 1e-6));
    });
  });

  test('two per cent and forty per cent keep apart, and the wrong way round they do not', () => {
    // one mask, the same exact rates everywhere; 1000 points on each photo
    const rates = [
      [0.9, 0.2],
      [0.1, 0.8],
    ];
    const photoOf = (weed: number, treatment: string): ReferencePhoto => ({
      photo: treatment,
      treatment,
      counts: rates.map((row) => row.map((rate, j) => Math.round(1000 * rate * (j === 1 ? weed : 1 - weed)))),
    });
    const both = [photoOf(0.02, 'a'), photoOf(0.4, 'b')];
    const pooled = pooledErrorRates(both, ['grass', 'weed']);
    if (!pooled.ok) throw new Error(pooled.code);
    for (const weed of [0.02, 0.4]) {
      const mapped = 0.1 * (1 - weed) + 0.8 * weed;
      const { classes } = estimated(
        invertErrorRates(pooled, { mappedFraction: [1 - mapped, mapped], photos: 4 }),
      );
      expect(classes[1]!.coverFraction).toBeCloseTo(weed, 10);
    }
    const total = addMatrices(both.map(({ counts }) => counts));
    const wrong = [0.02, 0.4].map((weed) => {
      const mapped = [0.9 * (1 - weed) + 0.2 * weed, 0.1 * (1 - weed) + 0.8 * weed];
      return adjustCover({ classes: ['grass', 'weed'], mappedFraction: mapped, counts: total })
        .adjustedFraction[1]!;
    });
    expect(wrong[0]).toBeGreaterThan(0.08);
    expect(wrong[1]).toBeLessThan(0.34);
  });

  test('solutions below 0 are cut and said to be', () => {
    const rates = pooledErrorRates(photos, CLASSES);
    if (!rates.ok) throw new Error(rates.code);
    const adjustment = estimated(invertErrorRates(rates, { mappedFraction: [0.99, 0.01, 0], photos: 4 }));
    expect(adjustment.isCut).toBe(true);
    const sum = adjustment.classes.reduce((total, { coverFraction }) => total + coverFraction, 0);
    expect(sum).toBeCloseTo(1, 12);
    for (const { coverFraction, interval } of adjustment.classes) {
      expect(coverFraction).toBeGreaterThanOrEqual(0);
      expect(interval.low).toBeGreaterThanOrEqual(0);
      expect(interval.high).toBeLessThanOrEqual(1);
    }
  });

  test('what cannot be solved is refused by name', () => {
    const withMatrix = (counts: number[][]) => pooledErrorRates([{ counts }, { counts }], CLASSES);
    const never = [
      [20, 3, 0],
      [2, 20, 0],
      [9, 2, 0],
    ];
    expect(withMatrix(never)).toEqual({ ok: false, code: 'class-never-observed', classes: ['bare-ground'] });
    const unmapped = [
      [20, 3, 9],
      [2, 20, 2],
      [0, 0, 0],
    ];
    expect(withMatrix(unmapped)).toEqual({ ok: false, code: 'class-never-mapped', classes: ['bare-ground'] });
    const mixed = [
      [20, 3, 8],
      [2, 20, 2],
      [5, 2, 1],
    ];
    expect(withMatrix(mixed)).toMatchObject({ ok: false, code: 'mask-does-not-separate' });
    const few = [
      [20, 3, 0],
      [2, 20, 0],
      [0, 0, 2],
    ];
    expect(withMatrix(few)).toMatchObject({
      ok: false,
      code: 'stratum-too-few-points',
      classes: ['bare-ground'],
    });
    expect(pooledErrorRates([photos[0]!], CLASSES)).toMatchObject({
      ok: false,
      code: 'too-few-photos',
      photos: 1,
    });
  });
});

describe('whether the mask errs alike in all treatments', () => {
  /** Photos of two treatments; the mask finds `found` of 20 weedy points. */
  const trial = (found: readonly [number, number]): ReferencePhoto[] =>
    [0, 1].flatMap((t) =>
      Array.from({ length: 4 }, (_, k) => ({
        photo: `${t}${k}`,
        treatment: String(t + 1),
        counts: [
          [60, 20 - found[t]! - (k % 2), 0],
          [3, found[t]! + (k % 2), 0],
          [0, 0, 14],
        ],
      })),
    );
  const mapped = ['1', '2'].map((treatment) => ({ treatment, mappedFraction: [0.7, 0.2, 0.1], photos: 4 }));
  /** The same with so few points on bare ground in treatment 2 that its own are not enough. */
  const scarce = (photos: readonly ReferencePhoto[]): ReferencePhoto[] =>
    photos.map(({ counts, ...photo }) => ({
      ...photo,
      counts: photo.treatment === '2' ? [counts[0]!, counts[1]!, [0, 0, 2]] : counts,
    }));

  test('a bleached treatment is found, and each treatment then stands for itself', () => {
    const unequal = trial([17, 8]);
    const found = equalErrorRates(unequal, CLASSES, repeatableRandom(1));
    expect(found.smallestP).toBeLessThan(0.1);
    // 2 of the 70 ways to deal 8 photos out in two fours part them as they are
    expect(found.p[1]).toBeCloseTo(2 / 70, 12);
    const result = adjustTreatments(unequal, mapped, CLASSES, repeatableRandom(1));
    expect(result).toMatchObject({ way: 'per-treatment', reason: 'own-points-suffice' });
    expect(result.treatments.map(({ adjustment }) => estimated(adjustment).estimator)).toEqual([
      'post-stratified',
      'post-stratified',
    ]);
    // treatment 2 with too few points of its own cannot borrow from treatment 1
    const refused = adjustTreatments(scarce(unequal), mapped, CLASSES, repeatableRandom(1));
    expect(refused).toMatchObject({ way: 'per-treatment', reason: 'rates-differ' });
    expect(refused.treatments[1]!.adjustment).toMatchObject({ ok: false, code: 'stratum-too-few-points' });
  });

  test('equal rates are pooled where a treatment has too few points, and the same seed gives the same answer', () => {
    const equal = trial([15, 15]);
    expect(adjustTreatments(equal, mapped, CLASSES, repeatableRandom(3)).way).toBe('per-treatment');
    const result = adjustTreatments(scarce(equal), mapped, CLASSES, repeatableRandom(3));
    expect(result).toMatchObject({ way: 'pooled', reason: 'rates-not-different' });
    expect(result.test.smallestP).toBe(1);
    expect(result.treatments.map(({ adjustment }) => estimated(adjustment).estimator)).toEqual([
      'inverted-error-rates',
      'inverted-error-rates',
    ]);
    expect(adjustTreatments(scarce(equal), mapped, CLASSES, repeatableRandom(3))).toEqual(result);
    expect(result.test.hardlyTested).toEqual([{ treatment: '2', classId: 'bare-ground', points: 8 }]);
    // a treatment without a point is not adjusted by what others show
    const third = { treatment: '3', mappedFraction: [0.7, 0.2, 0.1], photos: 4 };
    const withThird = adjustTreatments(scarce(equal), [...mapped, third], CLASSES, repeatableRandom(3));
    expect(withThird.way).toBe('pooled');
    expect(withThird.treatments[2]!.adjustment).toEqual({ ok: false, code: 'no-points' });
  });

  test('points of a few photos are not taken for many: one odd photo in each treatment is no difference', () => {
    const odd = trial([15, 15]).map((photo, i) =>
      i === 0
        ? {
            ...photo,
            counts: [
              [60, 18, 1],
              [3, 2, 1],
              [1, 0, 14],
            ],
          }
        : photo,
    );
    // Pearson's test of the pooled points would be far out: 11 of 80 weedy points more are missed in treatment 1
    expect(equalErrorRates(odd, CLASSES, repeatableRandom(5)).p[1]).toBeGreaterThan(0.1);
  });

  test('one photo a treatment, or one treatment, cannot be tested', () => {
    const single = [trial([15, 15])[0]!, trial([15, 15])[4]!];
    expect(equalErrorRates(single, CLASSES, repeatableRandom(1)).smallestP).toBeNull();
    const result = adjustTreatments(single, mapped, CLASSES, repeatableRandom(1));
    expect(result).toMatchObject({ way: 'per-treatment', reason: 'rates-untested' });
    expect(result.treatments[0]!.adjustment).toMatchObject({ ok: false, code: 'too-few-photos' });
  });

  test('a class hardly seen in a treatment is named', () => {
    const rare = trial([15, 15]).map((photo) =>
      photo.treatment === '2'
        ? {
            ...photo,
            counts: [
              [80, 0, 1],
              [3, 2, 1],
              [1, 0, 12],
            ],
          }
        : photo,
    );
    expect(equalErrorRates(rare, CLASSES, repeatableRandom(1)).hardlyTested).toEqual([
      { treatment: '2', classId: 'weedy-grass', points: 8 },
    ]);
  });
});

describe('one method for all plots of a comparison', () => {
  const figure = (plot: string, method: string, ratingDate = '2027-05-17'): MethodOfPlot => ({
    plot,
    method,
    ratingDate,
  });
  const figures = [
    figure('101', 'automatic'),
    figure('102', 'automatic'),
    figure('101', 'points'),
    figure('101', 'points', '2027-04-12'),
    figure('999', 'visual'),
  ];

  test('plots without the method are named with the methods that would do', () => {
    expect(checkOneMethod(figures, ['101', '102'], 'points')).toEqual([
      { ok: true, method: 'points', plots: 1 },
      {
        ok: false,
        code: 'method-missing',
        method: 'points',
        ratingDate: '2027-05-17',
        plots: ['102'],
        instead: ['automatic'],
      },
    ]);
  });

  test('the method that every plot has passes', () => {
    const [, may] = checkOneMethod(figures, ['101', '102'], 'automatic');
    expect(may).toEqual({ ok: true, method: 'automatic', plots: 2 });
  });
});
