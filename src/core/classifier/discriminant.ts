import { portableLog } from '../features/portableMath.ts';
import { choleskyFactor, invertLowerTriangle, type Matrix } from './symmetricMatrix.ts';

/** What labelled samples of one class have in common. */
export interface ClassStatistics {
  /** Samples, 0 or more. */
  readonly count: number;
  readonly mean: Float64Array;
  /** Sums of products of deviations from the mean, size x size, row-major. */
  readonly scatter: Matrix;
}

/** Statistics of samples. @param samples feature vectors, each of `size` */
export function classStatistics(samples: readonly ArrayLike<number>[], size: number): ClassStatistics {
  const mean = new Float64Array(size);
  const scatter = new Float64Array(size * size);
  for (const sample of samples) for (let i = 0; i < size; i += 1) mean[i]! += sample[i]! / samples.length;
  for (const sample of samples) {
    for (let i = 0; i < size; i += 1) {
      for (let j = 0; j < size; j += 1) {
        scatter[i * size + j]! += (sample[i]! - mean[i]!) * (sample[j]! - mean[j]!);
      }
    }
  }
  return { count: samples.length, mean, scatter };
}

/**
 * Covariance within the classes, pooled over them: the sum of scatters over samples less classes.
 *
 * @throws RangeError if there are no more samples than classes
 */
export function pooledCovariance(classes: readonly ClassStatistics[], size: number): Matrix {
  const filled = classes.filter(({ count }) => count > 0);
  const free = filled.reduce((sum, { count }) => sum + count, 0) - filled.length;
  if (free < 1) throw new RangeError(`a pooled covariance needs more samples than classes, got ${free} more`);
  const pooled = new Float64Array(size * size);
  for (const { scatter } of filled)
    for (let i = 0; i < pooled.length; i += 1) pooled[i]! += scatter[i]! / free;
  return pooled;
}

/** share of the one and 1 - share of the other, plus `ridge` of the other's diagonal. */
export function shrunkCovariance(own: Matrix, pooled: Matrix, share: number, ridge: number): Matrix {
  const size = Math.sqrt(own.length);
  return own.map((value, i) => {
    const blended = (1 - share) * value + share * pooled[i]!;
    return (1 - ridge) * blended + (i % (size + 1) === 0 ? ridge * pooled[i]! : 0);
  });
}

/** A normal density ready to be evaluated: whitening W with W' W = covariance^-1, and the half log determinant. */
export interface NormalDensity {
  readonly mean: Float64Array;
  readonly whitening: Matrix;
  readonly halfLogDeterminant: number;
}

/** @throws RangeError if the covariance is not positive definite */
export function normalDensity(mean: Float64Array, covariance: Matrix): NormalDensity {
  const size = mean.length;
  const factor = choleskyFactor(covariance, size);
  let halfLogDeterminant = 0;
  for (let i = 0; i < size; i += 1) halfLogDeterminant += portableLog(factor[i * size + i]!);
  return { mean, whitening: invertLowerTriangle(factor, size), halfLogDeterminant };
}

/** Log density at a point, without the constant that all densities of the same size share. */
export function logDensity(
  { mean, whitening, halfLogDeterminant }: NormalDensity,
  samples: ArrayLike<number>,
  offset = 0,
): number {
  const size = mean.length;
  let distance = 0;
  for (let row = 0; row < size; row += 1) {
    let z = 0;
    for (let k = 0; k <= row; k += 1) z += whitening[row * size + k]! * (samples[offset + k]! - mean[k]!);
    distance += z * z;
  }
  return -distance / 2 - halfLogDeterminant;
}
