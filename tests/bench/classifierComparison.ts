import { fitCoverModel } from '../../src/core/classifier/coverModel.ts';
import {
  classStatistics,
  logDensity,
  normalDensity,
  pooledCovariance,
  shrunkCovariance,
} from '../../src/core/classifier/discriminant.ts';
import { adaptToPhoto } from '../../src/core/classifier/photoAdaptation.ts';
import { expectPhoto } from '../../src/core/classifier/photoExpectation.ts';
import { type CellSample, photoLook, sampleCells } from '../../src/core/classifier/photoLook.ts';
import { estimateShares } from '../../src/core/classifier/shares.ts';
import { POOLED_SHARE, RIDGE } from '../../src/core/classifier/taughtConstants.ts';
import type { TrainingSample } from '../../src/core/classifier/trainingSamples.ts';
import { FEATURES } from '../../src/core/features/featurePlanes.ts';
import { repeatableRandom } from '../../src/core/trial/repeatableRandom.ts';
import { fitForest, forestProbabilities } from './rivals/forest.ts';
import { fitLogistic, probabilities } from './rivals/logistic.ts';
import {
  CLASS_IDS,
  coverError,
  isOdd,
  loadTaughtSamples,
  type TaughtSample,
  teachingPhoto,
  teachingSets,
} from './taughtSamples.ts';

/** Mean cover error in percentage points of one classifier, with labels counted and with shares estimated. */
export interface ComparisonRow {
  readonly classifier: string;
  readonly samePhotoCounted: number | null;
  readonly samePhotoShares: number;
  readonly dateCounted: number | null;
  readonly dateShares: number;
}

/** Log densities (up to a constant a cell) of the classes at a cell of features. */
type Scorer = (sample: readonly number[]) => readonly number[];

const SIZE = FEATURES.length;
const CLASSES = CLASS_IDS.length;

/**
 * The classifiers that were weighed against each other, on the same features, levelled photos and labelled pixels, judged on
 * the even plots: same photo with 200 labelled pixels a class, and date with four even plots of 70 pixels a class used on the
 * other even plots. Draw 0 of the pixels.
 */
export async function compareClassifiers(): Promise<ComparisonRow[]> {
  const samples = (await loadTaughtSamples()).filter((sample) => !isOdd(sample));
  const cells = new Map(samples.map((sample) => [sample, sampleCells(sample.features)]));
  const sets = [...new Set(samples.map(({ ratingDate }) => ratingDate))].flatMap((date) => {
    const ofDate = samples.filter(({ ratingDate }) => ratingDate === date);
    return teachingSets(ofDate).map((set) => ({ set, others: ofDate.filter((s) => !set.includes(s)) }));
  });
  const rows = Object.entries(RIVALS).map(([classifier, teachRival]): ComparisonRow => {
    const judge = (taught: readonly TaughtSample[], pixels: number, judged: readonly TaughtSample[]) => {
      const score = teachRival(taught.flatMap((sample) => teachingPhoto(sample, pixels, 0).samples));
      return judged.map((sample) => errors(score, cells.get(sample)!, sample.truth));
    };
    const same = samples.flatMap((sample) => judge([sample], 200, [sample]));
    const date = sets.flatMap(({ set, others }) => judge(set, 70, others));
    return {
      classifier,
      samePhotoCounted: mean(same.map(({ counted }) => counted)),
      samePhotoShares: mean(same.map(({ shares }) => shares)),
      dateCounted: mean(date.map(({ counted }) => counted)),
      dateShares: mean(date.map(({ shares }) => shares)),
    };
  });
  const adapted = (taught: readonly TaughtSample[], pixels: number, judged: readonly TaughtSample[]) => {
    const fit = fitCoverModel(
      taught.map((sample) => teachingPhoto(sample, pixels, 0)),
      CLASS_IDS,
    );
    if (!fit.ok) throw new Error(fit.problem.code);
    return judged.map((sample) => {
      const cellSample = cells.get(sample)!;
      const { shares } = adaptToPhoto(expectPhoto(fit.model, photoLook(cellSample), sample.name), cellSample);
      return coverError(
        [...shares].map((share) => 100 * share),
        sample.truth,
      );
    });
  };
  rows.push({
    classifier: 'quadratic discriminant fitted to the photo',
    samePhotoCounted: null,
    samePhotoShares: mean(samples.flatMap((sample) => adapted([sample], 200, [sample]))),
    dateCounted: null,
    dateShares: mean(sets.flatMap(({ set, others }) => adapted(set, 70, others))),
  });
  return rows;
}

export function comparisonTable(rows: readonly ComparisonRow[]): string {
  const cell = (value: number | null) => (value === null ? '' : value.toFixed(2)).padStart(9);
  return [
    `${'cover error, even plots'.padEnd(46)}same photo: counted, shares   date: counted, shares`,
    ...rows.map(
      (row) =>
        `${row.classifier.padEnd(56)}${cell(row.samePhotoCounted)}${cell(row.samePhotoShares)}       ${cell(row.dateCounted)}${cell(row.dateShares)}`,
    ),
  ].join('\n');
}

const RIVALS: Readonly<Record<string, (samples: readonly TrainingSample[]) => Scorer>> = {
  'linear discriminant': (samples) => discriminant(samples, 1),
  'quadratic discriminant, shrunk': (samples) => discriminant(samples, POOLED_SHARE),
  'multinomial logistic': (samples) => {
    const { scale, classes, features } = standardised(samples);
    const model = fitLogistic(features, classes, CLASSES, 1);
    return (sample) => probabilities(model, scale(sample)).map(Math.log);
  },
  'forest of 50 small trees': (samples) => {
    const classes = samples.map(({ classIndex }) => classIndex);
    const forest = fitForest(
      samples.map(({ features }) => features),
      classes,
      CLASSES,
      { trees: 50, mostLeafDepth: 6, leastSamples: 4, random: repeatableRandom(1) },
    );
    return (sample) => forestProbabilities(forest, sample, CLASSES).map(Math.log);
  },
};

function discriminant(samples: readonly TrainingSample[], pooledShare: number): Scorer {
  const statistics = CLASS_IDS.map((_, c) =>
    classStatistics(
      samples.filter(({ classIndex }) => classIndex === c).map(({ features }) => features),
      SIZE,
    ),
  );
  const pooled = pooledCovariance(statistics, SIZE);
  const densities = statistics.map(({ mean: middle, scatter, count }) =>
    normalDensity(
      middle,
      shrunkCovariance(
        scatter.map((value) => value / (count - 1)),
        pooled,
        pooledShare,
        RIDGE,
      ),
    ),
  );
  return (sample) => densities.map((density) => logDensity(density, sample));
}

function standardised(samples: readonly TrainingSample[]) {
  const { mean: middle, scatter } = classStatistics(
    samples.map(({ features }) => features),
    SIZE,
  );
  const spread = Array.from(middle, (_, f) => Math.sqrt(scatter[f * SIZE + f]! / samples.length));
  const scale = (sample: readonly number[]) => sample.map((value, f) => (value - middle[f]!) / spread[f]!);
  return {
    scale,
    classes: samples.map(({ classIndex }) => classIndex),
    features: samples.map(({ features }) => scale(features)),
  };
}

function errors(score: Scorer, { features, weights }: CellSample, truth: readonly number[]) {
  const logs = new Float64Array(weights.length * CLASSES);
  const counted = new Float64Array(CLASSES);
  let total = 0;
  weights.forEach((weight, cell) => {
    const scores = score([...features.subarray(cell * SIZE, (cell + 1) * SIZE)]);
    logs.set(scores, cell * CLASSES);
    counted[scores.indexOf(Math.max(...scores))]! += weight;
    total += weight;
  });
  const percent = (shares: Float64Array, of: number) => [...shares].map((share) => (100 * share) / of);
  return {
    counted: coverError(percent(counted, total), truth),
    shares: coverError(percent(estimateShares(logs, weights, CLASSES), 1), truth),
  };
}

const mean = (values: readonly number[]): number =>
  values.reduce((sum, value) => sum + value, 0) / values.length;
