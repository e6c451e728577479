import { FEATURE_UNIT, type FeaturePlanes } from '../features/featurePlanes.ts';
import { takeShare } from '../mask/takeShare.ts';
import type { NormalDensity } from './discriminant.ts';

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
  const scores = densities.map((density, c) => scoreCells(features, density, logShares[c]!));
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

/** Log density plus log share of each cell in whole steps. */
function scoreCells(
  { planes, measured }: FeaturePlanes,
  { mean, whitening, halfLogDeterminant }: NormalDensity,
  logShare: number,
): Int32Array<ArrayBuffer> {
  const size = mean.length;
  const out = new Int32Array(measured.length);
  // W (x / unit - mean) = (W / unit) x - W mean, row by row
  const rows = whitening.map((value) => value / FEATURE_UNIT);
  const offsets = mean.map((_, row) => {
    let sum = 0;
    for (let k = 0; k <= row; k += 1) sum += whitening[row * size + k]! * mean[k]!;
    return sum;
  });
  const x = new Float64Array(size);
  const top = (logShare - halfLogDeterminant) * SCORE_UNIT;
  for (let cell = 0; cell < out.length; cell += 1) {
    if (measured[cell] === 0) continue;
    for (let f = 0; f < size; f += 1) x[f] = planes[f]![cell]!;
    let distance = 0;
    for (let row = 0; row < size; row += 1) {
      let z = -offsets[row]!;
      const first = row * size;
      for (let k = 0; k <= row; k += 1) z += rows[first + k]! * x[k]!;
      distance += z * z;
    }
    out[cell] = Math.floor(top - distance * (SCORE_UNIT / 2) + 0.5);
  }
  return out;
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
