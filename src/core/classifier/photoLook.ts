import { FEATURE_UNIT, FEATURES, type FeaturePlanes } from '../features/featurePlanes.ts';
import { portableLog } from '../features/portableMath.ts';
import { FITTED_CELLS } from './taughtConstants.ts';

/** Cells of a photo, evenly spread, with what each of them stands for. */
export interface CellSample {
  /** cells x FEATURES, row-major, in units of L*, a*, b*. */
  readonly features: Float64Array;
  readonly weights: Float64Array;
  /** How many times brighter levelling made the photo. */
  readonly lightGain: number;
}

/** What can be said of a photo without knowing its classes. */
export interface PhotoLook {
  /** ln((L* + 16 of the brightest twentieth) / (L* + 16 of the middle)): high in sun, low in shade. */
  readonly contrast: number;
  /** How many times brighter levelling made the photo. */
  readonly lightGain: number;
  /** Standard deviation of each feature over the photo. */
  readonly spread: readonly number[];
}

/**
 * Every n-th measured cell of every n-th row, so that about `wanted` cells come out.
 *
 * @throws RangeError if no cell is measured
 */
export function sampleCells(features: FeaturePlanes, wanted = FITTED_CELLS): CellSample {
  const { planes, measured, groundWeight, grid } = features;
  let count = 0;
  for (let cell = 0; cell < measured.length; cell += 1) if (measured[cell] !== 0) count += 1;
  if (count === 0) throw new RangeError('a photo without measured pixels has no look');
  const step = Math.max(1, Math.floor(Math.sqrt(count / wanted)));
  const cells: number[] = [];
  for (let offset = step >> 1; cells.length === 0; offset = 0) {
    const every = offset === 0 ? 1 : step;
    for (let row = offset; row < grid.heightCells; row += every) {
      for (let column = offset; column < grid.widthCells; column += every) {
        const cell = row * grid.widthCells + column;
        if (measured[cell] !== 0) cells.push(cell);
      }
    }
  }
  const size = planes.length;
  const values = new Float64Array(cells.length * size);
  const weights = new Float64Array(cells.length);
  cells.forEach((cell, i) => {
    for (let f = 0; f < size; f += 1) values[i * size + f] = planes[f]![cell]! / FEATURE_UNIT;
    weights[i] = groundWeight[cell]!;
  });
  return { features: values, weights, lightGain: features.lightGain };
}

/** Index of the feature that shows the light: lightness of single leaves. */
const LEAF_LIGHTNESS = FEATURES.findIndex(({ channel, what }) => channel === 'lightness' && what === 'mean');

export function photoLook({ features, weights, lightGain }: CellSample): PhotoLook {
  const cells = weights.length;
  const size = features.length / cells;
  const lightness = Float64Array.from(
    { length: cells },
    (_, i) => features[i * size + LEAF_LIGHTNESS]!,
  ).sort();
  const at = (share: number) => Math.max(0, lightness[Math.floor(share * (cells - 1))]!) + 16;
  const spread = Array.from({ length: size }, (_, f) => {
    let sum = 0;
    let squares = 0;
    for (let i = 0; i < cells; i += 1) {
      const value = features[i * size + f]!;
      sum += value;
      squares += value * value;
    }
    const mean = sum / cells;
    return Math.sqrt(Math.max(1e-4, squares / cells - mean * mean));
  });
  return { contrast: portableLog(at(0.95) / at(0.5)), lightGain, spread };
}
