import { normalQuantile } from '../statistics/distributions/normal.ts';
import { studentTCritical } from '../statistics/distributions/studentT.ts';
import { mean } from '../statistics/mean.ts';

/** How far two methods of measuring the same plots lie apart. */
export interface LimitsOfAgreement {
  readonly n: number;
  /** Mean of a - b. */
  readonly meanDifference: number;
  readonly standardDeviation: number;
  readonly standardError: number;
  readonly meanDifferenceInterval: readonly [number, number];
  /** Mean difference -+ z standard deviations: 95 % of differences lie about here. */
  readonly limits: readonly [number, number];
  /** Intervals of the two limits, standard error sqrt(3 / n) standard deviations. */
  readonly lowerLimitInterval: readonly [number, number];
  readonly upperLimitInterval: readonly [number, number];
}

/**
 * Bland and Altman's limits of agreement of two methods on the same plots.
 *
 * @param multiple of the standard deviation for the limits @default 1.96
 * @returns null with fewer than 2 pairs
 * @throws RangeError on unequal lengths
 * @see Bland & Altman 1986, Lancet i:307
 */
export function limitsOfAgreement(
  a: readonly number[],
  b: readonly number[],
  multiple = 1.96,
): LimitsOfAgreement | null {
  checkPairs(a, b);
  const n = a.length;
  if (n < 2) return null;
  const differences = a.map((value, i) => value - b[i]!);
  const meanDifference = mean(differences);
  const standardDeviation = Math.sqrt(squares(differences, meanDifference) / (n - 1));
  const standardError = standardDeviation / Math.sqrt(n);
  const t = studentTCritical(0.05, n - 1);
  const around = (centre: number, reach: number): readonly [number, number] => [
    centre - reach,
    centre + reach,
  ];
  const limits = around(meanDifference, multiple * standardDeviation);
  const limitReach = t * standardDeviation * Math.sqrt(3 / n);
  return {
    n,
    meanDifference,
    standardDeviation,
    standardError,
    meanDifferenceInterval: around(meanDifference, t * standardError),
    limits,
    lowerLimitInterval: around(limits[0], limitReach),
    upperLimitInterval: around(limits[1], limitReach),
  };
}

/** Concordance of two methods: correlation times closeness to the line of equality. */
export interface Concordance {
  readonly n: number;
  readonly coefficient: number;
  readonly pearson: number;
  /** Closeness of the best line to the line of equality, 0..1. */
  readonly accuracy: number;
  readonly scaleShift: number;
  readonly locationShift: number;
  /** Null with fewer than 3 pairs or perfect concordance. */
  readonly standardError: number | null;
  /** 95 % interval through Fisher's z. */
  readonly interval: readonly [number, number] | null;
}

/**
 * Lin's concordance correlation coefficient, variances with divisor n.
 *
 * @returns null with fewer than 2 pairs or when a method never varies
 * @throws RangeError on unequal lengths
 * @see Lin 1989, Biometrics 45:255; correction of the standard error Lin 2000, Biometrics 56:324
 */
export function linConcordance(a: readonly number[], b: readonly number[]): Concordance | null {
  checkPairs(a, b);
  const n = a.length;
  if (n < 2) return null;
  const meanA = mean(a);
  const meanB = mean(b);
  const varianceA = squares(a, meanA) / n;
  const varianceB = squares(b, meanB) / n;
  if (!(varianceA > 0 && varianceB > 0)) return null;
  const covariance = a.reduce((sum, value, i) => sum + (value - meanA) * (b[i]! - meanB), 0) / n;
  const pearson = covariance / Math.sqrt(varianceA * varianceB);
  const coefficient = (2 * covariance) / (varianceA + varianceB + (meanA - meanB) ** 2);
  const scaleShift = Math.sqrt(varianceA / varianceB);
  const locationShift = (meanA - meanB) / (varianceA * varianceB) ** 0.25;
  const accuracy = 1 / ((scaleShift + 1 / scaleShift + locationShift ** 2) / 2);
  const head = { n, coefficient, pearson, accuracy, scaleShift, locationShift };
  const square = coefficient ** 2;
  if (n < 3 || !(square < 1) || pearson === 0) return { ...head, standardError: null, interval: null };
  const variance =
    (((1 - pearson ** 2) * square * (1 - square)) / pearson ** 2 +
      (2 * coefficient ** 3 * (1 - coefficient) * locationShift ** 2) / pearson -
      (coefficient ** 4 * locationShift ** 4) / (2 * pearson ** 2)) /
    (n - 2);
  if (!(variance > 0)) return { ...head, standardError: null, interval: null };
  const standardError = Math.sqrt(variance);
  const reach = (-normalQuantile(0.025) * standardError) / (1 - square);
  const z = Math.atanh(coefficient);
  return { ...head, standardError, interval: [Math.tanh(z - reach), Math.tanh(z + reach)] };
}

function checkPairs(a: readonly number[], b: readonly number[]): void {
  if (a.length !== b.length)
    throw new RangeError(`both methods need a value for each plot, got ${a.length} and ${b.length}`);
}

function squares(values: readonly number[], centre: number): number {
  return values.reduce((sum, value) => sum + (value - centre) ** 2, 0);
}
