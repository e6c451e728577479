import { FEATURE_UNIT, type FeaturePlanes } from '../features/featurePlanes.ts';
import { takeShare } from '../mask/takeShare.ts';
import type { NormalDensity } from './discriminant.ts';
import { type Polynomial, scorePair } from './scorePair.ts';

/** Steps of a nat in the scores that cells are ranked by. */
const SCORE_UNIT = 256;
const SCORE_MIDDLE = 32768;

/**
 * Labels of the cells such that the ground of each class is its share of the whole.
 *
 * Class after class, the rarest first, takes the cells in which it leads the others by most, until its share is reached.
 * The last class takes what is left. Whole numbers decide, so every engine gives the same labels.
 *
 * @param densities of the classes that take part
 * @param logShares their log shares; decides who leads whom
 * @param shares adding up to 1
 * @param labels what each class is called in the result
 * @returns 0 where the cell is not measured
 */
export function drawTaughtLabels(
  features: FeaturePlanes,
  densities: readonly NormalDensity[],
  logShares: Float64Array,
  shares: Float64Array,
  labels: readonly number[],
): Uint8Array<ArrayBuffer> {
  const { measured, groundWeight } = features;
  const cells = measured.length;
  const scores = scoreCells(
    features,
    densities.map((density, c) => polynomialOf(density, logShares[c]!)),
  );
  const out = new Uint8Array(cells);
  const left = groundWeight.slice();
  const order = shares.length > 1 ? [...shares.keys()].sort((a, b) => shares[a]! - shares[b]! || a - b) : [0];
  let shareLeft = 1;
  for (let turn = 0; turn + 1 < order.length; turn += 1) {
    const c = order[turn]!;
    const rivals = order.slice(turn + 1).map((rival) => scores[rival]!);
    const taken = takeShare(leads(scores[c]!, rivals), left, shareLeft > 0 ? shares[c]! / shareLeft : 0);
    for (let cell = 0; cell < cells; cell += 1) {
      if (taken[cell] === 0) continue;
      out[cell] = labels[c]!;
      left[cell] = 0;
    }
    shareLeft -= shares[c]!;
  }
  const last = labels[order[order.length - 1]!]!;
  for (let cell = 0; cell < cells; cell += 1) if (measured[cell] !== 0 && out[cell] === 0) out[cell] = last;
  return out;
}

/** Log density plus log share, as steps of a score in terms of the planes' whole numbers. */
function polynomialOf({ mean, whitening, halfLogDeterminant }: NormalDensity, logShare: number): Polynomial {
  const size = mean.length;
  const linear = new Float64Array(size);
  const square: number[] = [];
  let distanceAtZero = 0;
  for (let i = 0; i < size; i += 1) {
    for (let j = i; j < size; j += 1) {
      let precision = 0;
      for (let k = j; k < size; k += 1) precision += whitening[k * size + i]! * whitening[k * size + j]!;
      square.push(-(i === j ? 1 : 2) * precision * (SCORE_UNIT / 2 / FEATURE_UNIT / FEATURE_UNIT));
      linear[i]! += precision * mean[j]! * (SCORE_UNIT / FEATURE_UNIT);
      if (i !== j) linear[j]! += precision * mean[i]! * (SCORE_UNIT / FEATURE_UNIT);
      distanceAtZero += (i === j ? 1 : 2) * precision * mean[i]! * mean[j]!;
    }
  }
  return {
    constant: (logShare - halfLogDeterminant - distanceAtZero / 2) * SCORE_UNIT,
    linear,
    square: Float64Array.from(square),
  };
}

/** Steps by which each class leads the first one, cell by cell; classes go in pairs, which share the products of features. */
function scoreCells(
  features: FeaturePlanes,
  [first, ...others]: readonly Polynomial[],
): readonly Int32Array<ArrayBuffer>[] {
  const cells = features.measured.length;
  const scores = Array.from({ length: others.length + 1 }, () => new Int32Array(cells));
  const differences = others.map(({ constant, linear, square }) => ({
    constant: constant - first!.constant,
    linear: linear.map((value, f) => value - first!.linear[f]!),
    square: square.map((value, i) => value - first!.square[i]!),
  }));
  for (let c = 0; c < differences.length; c += 2) {
    const second = c + 1 < differences.length ? c + 1 : c;
    scorePair(features, [differences[c]!, differences[second]!], scores[c + 1]!, scores[second + 1]!);
  }
  return scores;
}

/** By how much a class leads the best of its rivals, as scores 0..65535. */
function leads(own: Int32Array, rivals: readonly Int32Array[]): Uint16Array {
  const out = new Uint16Array(own.length);
  for (let cell = 0; cell < own.length; cell += 1) {
    let best = rivals[0]![cell]!;
    for (let r = 1; r < rivals.length; r += 1) if (rivals[r]![cell]! > best) best = rivals[r]![cell]!;
    out[cell] = Math.min(65535, Math.max(0, own[cell]! - best + SCORE_MIDDLE));
  }
  return out;
}
