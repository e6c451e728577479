import { solveSymmetric } from '../../../src/core/classifier/symmetricMatrix.ts';

/** Coefficients of a multinomial logistic model: classes x (features + intercept), the intercept last. */
export interface LogisticModel {
  readonly coefficients: readonly Float64Array[];
}

/**
 * Multinomial logistic regression with a ridge on all coefficients but the intercepts, by Newton's method.
 *
 * Minimises strength x log loss (a sum over samples) + half the sum of squared coefficients, which makes the coefficients
 * of a feature add up to 0 over the classes.
 */
export function fitLogistic(
  samples: readonly (readonly number[])[],
  classes: readonly number[],
  classCount: number,
  strength: number,
): LogisticModel {
  const width = samples[0]!.length + 1;
  const size = classCount * width;
  const at = (sample: readonly number[], k: number) => (k < width - 1 ? sample[k]! : 1);
  let theta: Float64Array = new Float64Array(size);
  for (let step = 0; step < 60; step += 1) {
    const gradient = new Float64Array(size);
    const hessian = new Float64Array(size * size);
    for (let i = 0; i < size; i += 1) {
      // intercepts carry next to no ridge; without any, their common level would be free
      const ridge = i % width === width - 1 ? 1e-9 : 1;
      gradient[i] = ridge * theta[i]!;
      hessian[i * size + i] = ridge;
    }
    samples.forEach((sample, s) => {
      const p = probabilities({ coefficients: rowsOf(theta, classCount) }, sample);
      for (let a = 0; a < classCount; a += 1) {
        const error = strength * (p[a]! - (classes[s] === a ? 1 : 0));
        for (let k = 0; k < width; k += 1) gradient[a * width + k]! += error * at(sample, k);
        for (let b = 0; b < classCount; b += 1) {
          const weight = strength * p[a]! * ((a === b ? 1 : 0) - p[b]!);
          for (let k = 0; k < width; k += 1) {
            for (let m = 0; m < width; m += 1) {
              hessian[(a * width + k) * size + b * width + m]! += weight * at(sample, k) * at(sample, m);
            }
          }
        }
      }
    });
    const move = solveSymmetric(hessian, gradient, size);
    theta = theta.map((value, i) => value - move[i]!);
    if (Math.max(...move.map(Math.abs)) < 1e-10) break;
  }
  return { coefficients: rowsOf(theta, classCount) };
}

/** Probability of each class. */
export function probabilities({ coefficients }: LogisticModel, sample: ArrayLike<number>): number[] {
  const scores = coefficients.map((row) => {
    let score = row[row.length - 1]!;
    for (let k = 0; k + 1 < row.length; k += 1) score += row[k]! * sample[k]!;
    return score;
  });
  const largest = Math.max(...scores);
  const powers = scores.map((score) => Math.exp(score - largest));
  const sum = powers.reduce((total, power) => total + power, 0);
  return powers.map((power) => power / sum);
}

const rowsOf = (theta: Float64Array, classCount: number): Float64Array[] => {
  const width = theta.length / classCount;
  return Array.from({ length: classCount }, (_, c) => theta.slice(c * width, (c + 1) * width));
};
