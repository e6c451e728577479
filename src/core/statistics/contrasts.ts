import { studentTCritical, studentTTwoSided } from './distributions/studentT.ts';
import {
  covarianceFactor,
  type EstimableFunction,
  isEstimable,
  type LinearModelFit,
} from './linearModel/linearModel.ts';

/** A comparison planned before the data were seen: weights of treatments that add to zero. */
export interface PlannedContrast {
  readonly name: string;
  readonly weights: Readonly<Record<string, number>>;
}

/** A planned contrast estimated, on the scale of the analysis. */
export interface PlannedContrastEstimate {
  readonly name: string;
  readonly estimate: number | null;
  readonly standardError: number | null;
  readonly t: number | null;
  readonly p: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

/**
 * Estimates planned contrasts, each by its own t test with no adjustment for their number.
 *
 * @throws RangeError when a weight names an unknown treatment, weights do not add to zero, or all are zero
 */
export function estimateContrasts(
  contrasts: readonly PlannedContrast[],
  input: {
    readonly fit: LinearModelFit;
    readonly names: readonly string[];
    readonly functions: readonly EstimableFunction[];
    readonly meanSquareError: number | null;
    readonly alpha: number;
  },
): PlannedContrastEstimate[] {
  const { fit, names, functions, meanSquareError, alpha } = input;
  return contrasts.map(({ name, weights }) => {
    checkContrast(name, weights, names);
    const f = names.reduce<EstimableFunction>(
      (sum, treatment, index) => plus(sum, functions[index]!, weights[treatment] ?? 0),
      scaled(functions[0]!, 0),
    );
    const empty = { name, estimate: null, standardError: null, t: null, p: null, low: null, high: null };
    if (!isEstimable(f)) return empty;
    const estimate = fit.estimate(f);
    if (!meanSquareError) return { ...empty, estimate };
    const standardError = Math.sqrt(meanSquareError * covarianceFactor(f, f));
    const t = estimate / standardError;
    const df = fit.residualDegreesOfFreedom;
    const reach = studentTCritical(alpha, df) * standardError;
    const p = studentTTwoSided(t, df);
    return { name, estimate, standardError, t, p, low: estimate - reach, high: estimate + reach };
  });
}

function checkContrast(
  name: string,
  weights: Readonly<Record<string, number>>,
  names: readonly string[],
): void {
  const entries = Object.entries(weights);
  const unknown = entries.find(([treatment]) => !names.includes(treatment));
  if (unknown) {
    throw new RangeError(`contrast ${name}: no treatment ${unknown[0]}; there are ${names.join(', ')}`);
  }
  const sum = entries.reduce((total, [, weight]) => total + weight, 0);
  const size = entries.reduce((total, [, weight]) => total + Math.abs(weight), 0);
  if (!(size > 0)) throw new RangeError(`contrast ${name}: all weights are zero`);
  if (!(Math.abs(sum) <= 1e-9 * size))
    throw new RangeError(`contrast ${name}: weights must add to 0, they add to ${sum}`);
}

function plus(a: EstimableFunction, b: EstimableFunction, weight: number): EstimableFunction {
  return {
    coordinates: a.coordinates.map((value, i) => value + weight * b.coordinates[i]!),
    remainder: a.remainder.map((value, i) => value + weight * b.remainder[i]!),
    intercept: a.intercept + weight * b.intercept,
  };
}

function scaled(f: EstimableFunction, weight: number): EstimableFunction {
  return {
    coordinates: f.coordinates.map((value) => value * weight),
    remainder: f.remainder.map((value) => value * weight),
    intercept: f.intercept * weight,
  };
}
