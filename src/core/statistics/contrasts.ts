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
 * A contrast with a treatment that has no plots here is null.
 *
 * @throws RangeError when weights do not add to zero or all are zero
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
  return contrasts.map((contrast) => {
    const { name, weights } = contrast;
    const empty = { name, estimate: null, standardError: null, t: null, p: null, low: null, high: null };
    const problem = contrastProblem(contrast, names);
    if (problem?.code === 'unknown-treatment') return empty;
    if (problem) throw new RangeError(`contrast ${name}: ${problem.code}`);
    const f = names.reduce<EstimableFunction>(
      (sum, treatment, index) => plus(sum, functions[index]!, weights[treatment] ?? 0),
      scaled(functions[0]!, 0),
    );
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

/** What makes a contrast impossible. */
export type ContrastProblem =
  | { readonly code: 'unknown-treatment'; readonly name: string; readonly treatment: string }
  | { readonly code: 'no-weights'; readonly name: string }
  | { readonly code: 'weights-do-not-cancel'; readonly name: string; readonly sum: number };

/** Why a contrast cannot be estimated, or null; `treatments` are all of the trial. */
export function contrastProblem(
  { name, weights }: PlannedContrast,
  treatments: readonly string[],
): ContrastProblem | null {
  const entries = Object.entries(weights);
  const unknown = entries.find(([treatment]) => !treatments.includes(treatment));
  if (unknown) return { code: 'unknown-treatment', name, treatment: unknown[0] };
  const sum = entries.reduce((total, [, weight]) => total + weight, 0);
  const size = entries.reduce((total, [, weight]) => total + Math.abs(weight), 0);
  if (!(size > 0)) return { code: 'no-weights', name };
  return Math.abs(sum) <= 1e-9 * size ? null : { code: 'weights-do-not-cancel', name, sum };
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
