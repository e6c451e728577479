import { kenwardRoger, type LinearTest } from './kenwardRoger.ts';
import {
  type LikelihoodState,
  type MixedModelData,
  type ObservationGroup,
  observationGroups,
  residualLikelihood,
} from './residualLikelihood.ts';

/** A mixed model fitted by residual maximum likelihood. */
export interface MixedModelFit {
  /** Of each random effect by name, and `residual`; 0 where the estimate lies at its bound. */
  readonly varianceComponents: Readonly<Record<string, number>>;
  /** Random effects whose variance is estimated as 0; tests then ignore them. */
  readonly atZero: readonly string[];
  readonly coefficients: Float64Array;
  readonly converged: boolean;
  /** F test that all given linear functions of the coefficients are 0, after Kenward and Roger. */
  readonly test: (functions: readonly Float64Array[]) => LinearTest;
}

const ITERATIONS = 100;

/**
 * Fits a mixed model with independent random effects by average-information REML.
 *
 * A random effect whose variance wants to be negative is set to 0 and left out of the tests.
 *
 * @returns null when fixed effects are not independent or there is no variation left
 * @see Patterson & Thompson 1971, Biometrika 58:545; Kenward & Roger 1997, Biometrics 53:983
 */
export function fitMixedModel(data: MixedModelData): MixedModelFit | null {
  const names = data.random.map(({ name }) => name);
  let active = data;
  const atZero: string[] = [];
  for (;;) {
    const found = estimateVariances(active);
    if (!found) return null;
    const weakest = found.bound;
    if (weakest === null) {
      const components = Object.fromEntries(names.map((name) => [name, 0]));
      active.random.forEach(({ name }, index) => {
        components[name] = found.variances[index]!;
      });
      components.residual = found.variances[active.random.length]!;
      const groups = observationGroups(active);
      const state = residualLikelihood(active, groups, found.variances, true);
      if (!state) return null;
      return {
        varianceComponents: components,
        atZero,
        coefficients: state.coefficients,
        converged: found.converged,
        test: kenwardRoger(state, found.variances.length),
      };
    }
    atZero.push(active.random[weakest]!.name);
    active = { ...active, random: active.random.filter((_, index) => index !== weakest) };
  }
}

interface VarianceEstimate {
  readonly variances: readonly number[];
  /** Index of a random effect that lies at 0, or null. */
  readonly bound: number | null;
  readonly converged: boolean;
}

function estimateVariances(data: MixedModelData): VarianceEstimate | null {
  const groups = observationGroups(data);
  const parts = data.random.length + 1;
  const mean = data.response.reduce((sum, value) => sum + value, 0) / data.response.length;
  const total = data.response.reduce((sum, value) => sum + (value - mean) ** 2, 0) / data.response.length;
  if (!(total > 0)) return null;
  const floor = total * 1e-9;
  let variances = new Array<number>(parts).fill(total / parts);
  let state = residualLikelihood(data, groups, variances, false);
  let converged = false;
  for (let n = 0; n < ITERATIONS && state && !converged; n += 1) {
    const better = improve(data, groups, variances, state, floor);
    if (!better) break;
    const change = better.variances.map(
      (value, r) => Math.abs(value - variances[r]!) / (value + floor * 1e3),
    );
    variances = better.variances;
    state = better.state;
    converged = Math.max(...change) < 1e-9;
  }
  if (!state || !(variances[parts - 1]! > floor)) return null;
  const { score } = state;
  const bound = variances.findIndex(
    (variance, r) => r < parts - 1 && variance <= floor * 1.0001 && score[r]! <= 0,
  );
  return { variances, bound: bound < 0 ? null : bound, converged };
}

/** One step of average information, halved until the residual likelihood does not fall; null when no step helps. */
function improve(
  data: MixedModelData,
  groups: readonly ObservationGroup[],
  variances: readonly number[],
  state: LikelihoodState,
  floor: number,
): { variances: number[]; state: LikelihoodState } | null {
  const parts = variances.length;
  const step = solveSmall(state.averageInformation, state.score, parts);
  if (!step) return null;
  for (let share = 1; share > 1e-6; share /= 2) {
    const next = variances.map((variance, r) =>
      Math.max(r === parts - 1 ? variance / 10 : floor, variance + share * step[r]!),
    );
    const candidate = residualLikelihood(data, groups, next, false);
    if (candidate && candidate.deviance <= state.deviance + 1e-10 * Math.abs(state.deviance)) {
      return { variances: next, state: candidate };
    }
  }
  return null;
}

/** Solves a small symmetric system by elimination; null when singular. */
function solveSmall(matrix: Float64Array, right: Float64Array, size: number): number[] | null {
  const a = Array.from({ length: size }, (_, i) => [...matrix.subarray(i * size, (i + 1) * size), right[i]!]);
  for (let i = 0; i < size; i += 1) {
    let pivot = i;
    for (let r = i + 1; r < size; r += 1) if (Math.abs(a[r]![i]!) > Math.abs(a[pivot]![i]!)) pivot = r;
    [a[i], a[pivot]] = [a[pivot]!, a[i]!];
    if (!(Math.abs(a[i]![i]!) > 0)) return null;
    for (let r = 0; r < size; r += 1) {
      if (r === i) continue;
      const factor = a[r]![i]! / a[i]![i]!;
      for (let c = i; c <= size; c += 1) a[r]![c]! -= factor * a[i]![c]!;
    }
  }
  return a.map((row, i) => row[size]! / row[i]!);
}
