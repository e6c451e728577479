import { FEATURES } from '../features/featurePlanes.ts';
import { portableExp, portableLog } from '../features/portableMath.ts';
import { logDensity, type NormalDensity, normalDensity } from './discriminant.ts';
import { type PhotoExpectation, scaledExpectation } from './photoExpectation.ts';
import type { CellSample } from './photoLook.ts';
import { estimateShares } from './shares.ts';
import { invertSymmetric, type Matrix, solveSymmetric } from './symmetricMatrix.ts';
import {
  FIT_ROUNDS,
  LARGEST_SPREAD_RATIO,
  LEAST_RESCALING,
  OWN_SPREAD_POWER,
  PHOTO_COUNTS_AS_CELLS,
  RESCALING_NATS,
  STRAY,
} from './taughtConstants.ts';

const SIZE = FEATURES.length;

/** A model fitted to one photo: where its classes lie there, and how much of each there is. */
export interface AdaptedModel {
  /** By taught class, adding up to 1. */
  readonly shares: Float64Array;
  /** How far each class mean has moved from what was expected, by feature. */
  readonly shifts: readonly Float64Array[];
  /** Squared length of all shifts in standard deviations of what is usual between photos, over their number. */
  readonly strangeness: number;
  /** For drawing the mask. */
  readonly maskDensities: readonly NormalDensity[];
  /** Mean over the cells of the probability of their likeliest class. */
  readonly meanCertainty: number;
  /** Log of the posterior density, up to a constant: tells which of two expectations suits the photo better. */
  readonly fitNats: number;
}

/**
 * Fits a model to a photo, twice where that can matter: once believing that the photo's brightness is its light, which
 * levelling has taken out, and once that its plants are brighter or darker on the whole, so that levelling is undone. What
 * suits the photo better is kept. With labelled cells of its own there is nothing to guess.
 */
export function adaptToPhoto(expected: PhotoExpectation, sample: CellSample): AdaptedModel {
  const levelled = adaptOnce(expected, sample);
  if (expected.own.some((own) => own !== null)) return levelled;
  const scale = power(sample.lightGain / expected.lightGain, 1 / 3);
  if (Math.abs(scale - 1) < LEAST_RESCALING) return levelled;
  const asTaken = adaptOnce(scaledExpectation(expected, scale), sample);
  return asTaken.fitNats > levelled.fitNats + RESCALING_NATS ? asTaken : levelled;
}

/**
 * Fits class means, spread and shares to a photo together.
 *
 * Light, darkening and bleaching move class means from photo to photo by amounts whose usual size is known (STRAY):
 * that, the expected means, the labelled cells of the photo if it has any, and all its unlabelled cells are weighed by
 * maximum a posteriori, in turn with the shares by expectation-maximisation. docs/method.md tells the whole of it.
 */
function adaptOnce(expected: PhotoExpectation, sample: CellSample): AdaptedModel {
  const { means, covariances, own } = expected;
  const classes = means.length;
  const cells = sample.weights.length;
  const weight = sample.weights.reduce((sum, value) => sum + value, 0);
  const stray = strayInverse(classes);
  const densities = new Float64Array(cells * classes);
  const probabilities = new Float64Array(cells * classes);
  const spreadFactors = new Float64Array(SIZE).fill(1);
  let shift: Float64Array = new Float64Array(classes * SIZE);
  let shares: Float64Array = new Float64Array(classes).fill(1 / classes);

  const evaluate = (): Matrix[] => {
    const spread = covariances.map((covariance) =>
      covariance.map((value, i) => value * spreadFactors[Math.floor(i / SIZE)]! * spreadFactors[i % SIZE]!),
    );
    const normal = spread.map((covariance, c) => normalDensity(shifted(means[c]!, shift, c), covariance));
    for (let i = 0; i < cells; i += 1) {
      for (let c = 0; c < classes; c += 1) {
        densities[i * classes + c] = logDensity(normal[c]!, sample.features, i * SIZE);
      }
    }
    return spread;
  };

  for (let round = 0; round < FIT_ROUNDS; round += 1) {
    const spread = evaluate();
    shares = estimateShares(densities, sample.weights, classes, {
      start: shares,
      mostSteps: round === 0 ? 30 : 3,
      probabilities,
    });
    const moments = momentsOf(sample, probabilities, classes, weight);
    const precision = stray.slice();
    const pull = new Float64Array(classes * SIZE);
    moments.forEach(({ share, mean }, c) => {
      const inverse = invertSymmetric(spread[c]!, SIZE);
      const labelled = own[c];
      const photoCells = PHOTO_COUNTS_AS_CELLS * share;
      const labelledCells = labelled ? labelled.cells : 0;
      for (let i = 0; i < SIZE; i += 1) {
        for (let j = 0; j < SIZE; j += 1) {
          const entry = inverse[i * SIZE + j]!;
          precision[(c * SIZE + i) * classes * SIZE + c * SIZE + j]! += (photoCells + labelledCells) * entry;
          pull[c * SIZE + i]! += entry * photoCells * (mean[j]! - means[c]![j]!);
          if (labelled) {
            pull[c * SIZE + i]! += entry * labelledCells * (labelled.mean[j]! - means[c]![j]!);
          }
        }
      }
    });
    shift = solveSymmetric(precision, pull, classes * SIZE);
    if (round > 1) spreadSeen(moments, covariances, spreadFactors);
  }
  evaluate();
  shares = estimateShares(densities, sample.weights, classes, { start: shares, probabilities });
  const penalty = quadraticForm(stray, shift);
  return {
    shares,
    fitNats: PHOTO_COUNTS_AS_CELLS * meanLogDensity(densities, shares, sample.weights, weight) - penalty / 2,
    shifts: means.map((_, c) => shift.slice(c * SIZE, (c + 1) * SIZE)),
    strangeness: penalty / shift.length,
    maskDensities: expected.maskCovariances.map((covariance, c) =>
      normalDensity(shifted(means[c]!, shift, c), covariance),
    ),
    meanCertainty: meanCertainty(probabilities, sample.weights, classes, weight),
  };
}

const shifted = (mean: Float64Array, shift: Float64Array, c: number): Float64Array =>
  mean.map((value, f) => value + shift[c * SIZE + f]!);

/** A class with a smaller share is taken as not there while the fit goes on. */
const LEAST_SEEN = 1e-12;

interface ClassMoments {
  readonly share: number;
  readonly mean: Float64Array;
  /** Variance of each feature. */
  readonly variance: Float64Array;
}

/** Share, means and variances of each class over the cells, each cell by its probability. */
function momentsOf(
  { features, weights }: CellSample,
  probabilities: Float64Array,
  classes: number,
  weight: number,
): ClassMoments[] {
  return Array.from({ length: classes }, (_, c) => {
    let total = 0;
    const mean = new Float64Array(SIZE);
    const variance = new Float64Array(SIZE);
    for (let i = 0; i < weights.length; i += 1) {
      const part = weights[i]! * probabilities[i * classes + c]!;
      total += part;
      for (let f = 0; f < SIZE; f += 1) {
        const value = features[i * SIZE + f]!;
        mean[f]! += part * value;
        variance[f]! += part * value * value;
      }
    }
    // a class that the photo does not show says nothing, and 1 / total must stay finite
    const isSeen = total > LEAST_SEEN * weight;
    const scale = isSeen ? 1 / total : 0;
    for (let f = 0; f < SIZE; f += 1) {
      mean[f]! *= scale;
      variance[f] = Math.max(0, variance[f]! * scale - mean[f]! * mean[f]!);
    }
    return { share: isSeen ? total / weight : 0, mean, variance };
  });
}

/** Factors of spread as the photo shows it: ratio of variances over all classes, believed in part. */
function spreadSeen(
  moments: readonly ClassMoments[],
  covariances: readonly Matrix[],
  out: Float64Array,
): void {
  for (let f = 0; f < SIZE; f += 1) {
    let ratio = 0;
    moments.forEach(({ share, variance }, c) => {
      ratio += (share * variance[f]!) / covariances[c]![f * SIZE + f]!;
    });
    const largest = LARGEST_SPREAD_RATIO * LARGEST_SPREAD_RATIO;
    const capped = Math.min(largest, Math.max(1 / largest, ratio));
    out[f] = power(capped, OWN_SPREAD_POWER / 2);
  }
}

function power(base: number, exponent: number): number {
  const log = exponent * portableLog(base);
  return log <= 0 ? portableExp(log) : 1 / portableExp(-log);
}

/**
 * Inverse covariance of the shifts of all class means, classes x features square: STRAY, channel by channel.
 */
function strayInverse(classes: number): Matrix {
  const size = classes * SIZE;
  const covariance = new Float64Array(size * size);
  const channelOf = FEATURES.map(({ channel, what }) => (what === 'spread' ? 'spread' : channel));
  for (let a = 0; a < size; a += 1) {
    for (let b = 0; b < size; b += 1) {
      const channel = channelOf[a % SIZE]!;
      if (channel !== channelOf[b % SIZE]) continue;
      const { common, kind, feature } = STRAY[channel];
      const sameClass = Math.floor(a / SIZE) === Math.floor(b / SIZE);
      covariance[a * size + b] =
        common * common + (sameClass ? kind * kind : 0) + (a === b ? feature * feature : 0);
    }
  }
  return invertSymmetric(covariance, size);
}

function quadraticForm(matrix: Matrix, vector: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < vector.length; i += 1) {
    for (let j = 0; j < vector.length; j += 1)
      sum += vector[i]! * vector[j]! * matrix[i * vector.length + j]!;
  }
  return sum;
}

/** Mean over the cells of the log density of the mixture. */
function meanLogDensity(
  densities: Float64Array,
  shares: Float64Array,
  weights: Float64Array,
  weight: number,
): number {
  const classes = shares.length;
  let sum = 0;
  for (let i = 0; i < weights.length; i += 1) {
    let largest = densities[i * classes]!;
    for (let c = 1; c < classes; c += 1) largest = Math.max(largest, densities[i * classes + c]!);
    let mixture = 0;
    for (let c = 0; c < classes; c += 1) {
      mixture += shares[c]! * portableExp(densities[i * classes + c]! - largest);
    }
    sum += ((largest + portableLog(mixture)) * weights[i]!) / weight;
  }
  return sum;
}

function meanCertainty(
  probabilities: Float64Array,
  weights: Float64Array,
  classes: number,
  weight: number,
): number {
  let sum = 0;
  for (let i = 0; i < weights.length; i += 1) {
    let largest = 0;
    for (let c = 0; c < classes; c += 1) largest = Math.max(largest, probabilities[i * classes + c]!);
    sum += (largest * weights[i]!) / weight;
  }
  return sum;
}
