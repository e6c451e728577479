import { portableExp, portableLog } from '../features/portableMath.ts';

/** Shares this small no longer matter. */
const LEAST_SHARE = 1e-9;

export interface ShareOptions {
  /** Where the search starts; equal shares when not given. */
  readonly start?: ArrayLike<number>;
  /** @default 200 */
  readonly mostSteps?: number;
  /** Ends when no share moves by more. @default 1e-6 */
  readonly tolerance?: number;
  /** Receives the probabilities under the shares of the last step but one, laid out like the densities. */
  readonly probabilities?: Float64Array;
}

/**
 * Class shares of a population from the densities of each class at its members.
 *
 * Expectation-maximisation: probabilities under the present shares, then shares as their weighted mean. Counting
 * the most likely class instead would call rare classes too often, since the labelled samples say nothing about shares.
 *
 * @param logDensities members x classes, row-major
 * @param weights what each member stands for, adding up to more than 0
 * @returns shares adding up to 1
 * @see Saerens, Latinne and Decaestecker 2002, Neural Computation 14:21
 */
export function estimateShares(
  logDensities: Float64Array,
  weights: ArrayLike<number>,
  classes: number,
  options: ShareOptions = {},
): Float64Array {
  const { mostSteps = 200, tolerance = 1e-6, probabilities } = options;
  const members = logDensities.length / classes;
  let total = 0;
  for (let m = 0; m < members; m += 1) total += weights[m]!;
  if (!(total > 0)) throw new RangeError(`weights must add up to more than 0, got ${total}`);

  // densities relative to the largest at each member, computed once
  const relative = new Float64Array(logDensities.length);
  for (let m = 0; m < members; m += 1) {
    const first = m * classes;
    let largest = logDensities[first]!;
    for (let c = 1; c < classes; c += 1)
      if (logDensities[first + c]! > largest) largest = logDensities[first + c]!;
    for (let c = 0; c < classes; c += 1)
      relative[first + c] = portableExp(logDensities[first + c]! - largest);
  }
  let shares = Float64Array.from(options.start ?? new Array<number>(classes).fill(1 / classes));
  for (let step = 0; step < mostSteps; step += 1) {
    const next = new Float64Array(classes);
    for (let m = 0; m < members; m += 1) {
      const first = m * classes;
      let sum = 0;
      for (let c = 0; c < classes; c += 1) sum += shares[c]! * relative[first + c]!;
      const scale = weights[m]! / (total * sum);
      for (let c = 0; c < classes; c += 1) next[c]! += shares[c]! * relative[first + c]! * scale;
      if (probabilities) {
        for (let c = 0; c < classes; c += 1)
          probabilities[first + c] = (shares[c]! * relative[first + c]!) / sum;
      }
    }
    let moved = 0;
    for (let c = 0; c < classes; c += 1) {
      moved = Math.max(moved, Math.abs(next[c]! - shares[c]!));
      next[c] = Math.max(LEAST_SHARE, next[c]!);
    }
    shares = next;
    if (moved < tolerance) break;
  }
  const sum = shares.reduce((a, b) => a + b, 0);
  return shares.map((share) => share / sum);
}

/** Log shares, for adding to log densities. */
export const logShares = (shares: Float64Array): Float64Array =>
  shares.map((share) => portableLog(Math.max(LEAST_SHARE, share)));
