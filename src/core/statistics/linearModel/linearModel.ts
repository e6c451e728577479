import { householderQr, type OrthogonalDecomposition } from './householderQr.ts';
import { type DesignColumns, designColumns, type ModelTerm } from './modelTerm.ts';

/** Sum of squares of one term, adjusted for the terms before it. */
export interface TermSumOfSquares {
  readonly name: string;
  readonly degreesOfFreedom: number;
  readonly sumOfSquares: number;
}

/** A linear function of the coefficients, reduced to coordinates of the orthogonal basis. */
export interface EstimableFunction {
  /** Estimate = coordinates . effects; variance = error variance x squared length of the coordinates. */
  readonly coordinates: Float64Array;
  /** What of it the data cannot tell, one number for each aliased column: all (near) 0 when the function can be estimated. */
  readonly remainder: Float64Array;
  /** Weight of the intercept, to which the mean of the response is added back. */
  readonly intercept: number;
}

/** Least-squares fit of a linear model with an intercept. */
export interface LinearModelFit {
  readonly design: DesignColumns;
  /** Sequential sums of squares in the order of the terms. */
  readonly terms: readonly TermSumOfSquares[];
  readonly residualDegreesOfFreedom: number;
  /** Exactly 0 when only rounding is left. */
  readonly residualSumOfSquares: number;
  /** Arithmetic mean of the response. */
  readonly mean: number;
  readonly residuals: Float64Array;
  /** Leverage of each observation, 0..1. */
  readonly leverages: () => Float64Array;
  readonly reduce: (row: Float64Array) => EstimableFunction;
  readonly estimate: (f: EstimableFunction) => number;
}

/**
 * Fits a linear model by orthogonal decomposition; handles unequal n, missing plots and dependent columns.
 *
 * @param response one value for each observation, all finite
 * @param terms in the order in which their sums of squares are wanted
 * @throws RangeError if a value is not finite or there is none
 */
export function fitLinearModel(response: readonly number[], terms: readonly ModelTerm[]): LinearModelFit {
  const size = response.length;
  if (size === 0) throw new RangeError('a linear model needs at least one observation');
  const bad = response.findIndex((value) => !Number.isFinite(value));
  if (bad >= 0) throw new RangeError(`observation ${bad} must be a finite number, got ${response[bad]}`);
  const mean = response.reduce((sum, value) => sum + value, 0) / size;
  const design = designColumns(terms, size);
  const qr = householderQr(design.columns);
  const effects = qr.toCoordinates(response.map((value) => value - mean));
  const isNoise = noiseLimit(response);
  const residualCoordinates = Float64Array.from(effects);
  residualCoordinates.fill(0, 0, qr.rank);
  const residualSumOfSquares = sumOfSquares(effects, qr.rank, size);
  return {
    design,
    mean,
    terms: design.terms.map((term) => {
      const ranks = qr.pivots.flatMap((pivot, rank) => (pivot >= term.from && pivot < term.to ? [rank] : []));
      const sum = ranks.reduce((total, rank) => total + effects[rank]! ** 2, 0);
      return { name: term.name, degreesOfFreedom: ranks.length, sumOfSquares: sum <= isNoise ? 0 : sum };
    }),
    residualDegreesOfFreedom: size - qr.rank,
    residualSumOfSquares: residualSumOfSquares <= isNoise ? 0 : residualSumOfSquares,
    residuals: qr.fromCoordinates(residualCoordinates),
    leverages: () => leverages(qr, size),
    reduce: (row) => reduce(qr, row),
    estimate: (f) => {
      let sum = f.intercept * mean;
      for (let i = 0; i < qr.rank; i += 1) sum += f.coordinates[i]! * effects[i]!;
      return sum;
    },
  };
}

/** True when the data can tell a linear function (its remainder is rounding only). */
export function isEstimable(f: Pick<EstimableFunction, 'remainder'>): boolean {
  return f.remainder.every((value) => Math.abs(value) < 1e-7);
}

/** a - b of two linear functions. */
export function differenceOf(a: EstimableFunction, b: EstimableFunction): EstimableFunction {
  return {
    coordinates: a.coordinates.map((value, i) => value - b.coordinates[i]!),
    remainder: a.remainder.map((value, i) => value - b.remainder[i]!),
    intercept: a.intercept - b.intercept,
  };
}

/** Inner product of the coordinates: covariance of two linear functions in units of the error variance. */
export function covarianceFactor(a: EstimableFunction, b: EstimableFunction): number {
  let sum = 0;
  for (let i = 0; i < a.coordinates.length; i += 1) sum += a.coordinates[i]! * b.coordinates[i]!;
  return sum;
}

/** Solves triangle' w = row over the independent columns, and what the dependent ones leave over. */
function reduce(qr: OrthogonalDecomposition, row: Float64Array): EstimableFunction {
  const w = new Float64Array(qr.rank);
  for (let i = 0; i < qr.rank; i += 1) {
    const column = qr.triangle[qr.pivots[i]!]!;
    let sum = row[qr.pivots[i]!]!;
    for (let k = 0; k < i; k += 1) sum -= column[k]! * w[k]!;
    w[i] = sum / column[i]!;
  }
  const remainder = Float64Array.from(qr.aliased, (index) => {
    const column = qr.triangle[index]!;
    let sum = row[index]!;
    for (let k = 0; k < qr.rank; k += 1) sum -= column[k]! * w[k]!;
    return sum;
  });
  return { coordinates: w, remainder, intercept: row[0]! };
}

function leverages(qr: OrthogonalDecomposition, size: number): Float64Array {
  const total = new Float64Array(size);
  for (let k = 0; k < qr.rank; k += 1) {
    const unit = new Float64Array(size);
    unit[k] = 1;
    const q = qr.fromCoordinates(unit);
    for (let i = 0; i < size; i += 1) total[i]! += q[i]! * q[i]!;
  }
  return total;
}

/** Sums of squares up to this are rounding of the response, not variation. */
function noiseLimit(response: readonly number[]): number {
  let largest = 0;
  for (const value of response) largest = Math.max(largest, Math.abs(value));
  return response.length * (64 * Number.EPSILON * largest) ** 2;
}

function sumOfSquares(values: Float64Array, from: number, to: number): number {
  let sum = 0;
  for (let i = from; i < to; i += 1) sum += values[i]! * values[i]!;
  return sum;
}
