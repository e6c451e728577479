import { fisherFUpperTail } from '../distributions/fisherF.ts';
import { addSymmetric, type EnvelopeMatrix, envelopeMatrix, factorEnvelope } from './envelopeMatrix.ts';
import { type LikelihoodState, multiply, traceWithEnvelope } from './residualLikelihood.ts';

/** F test of linear functions of the fixed effects; for one function also its estimate and standard error. */
export interface LinearTest {
  readonly numeratorDf: number;
  readonly denominatorDf: number;
  readonly f: number;
  readonly p: number;
  readonly estimates: readonly number[];
  /** Standard errors that allow for the variances being estimated. */
  readonly standardErrors: readonly number[];
}

/**
 * Tests of fixed effects in small samples, with adjusted covariance and degrees of freedom.
 *
 * @param state at the estimated variances, matrices of second order included
 * @param components number of variances
 * @see Kenward & Roger 1997, Biometrics 53:983
 */
export function kenwardRoger(
  state: LikelihoodState,
  components: number,
): (functions: readonly Float64Array[]) => LinearTest {
  const size = state.coefficients.length;
  const phi = state.covariance;
  const phiFirst = state.first.map((matrix) => timesEnvelope(phi, matrix, size));
  const information = envelopeMatrix(components);
  for (let r = 0; r < components; r += 1) {
    for (let s = r; s < components; s += 1) {
      const value =
        0.5 *
        (state.traces[r * components + s]! -
          2 * traceWithEnvelope(phi, state.second[r * components + s]!) +
          traceOf(phiFirst[r]!, phiFirst[s]!, size));
      addSymmetric(information, r, s, value);
    }
  }
  const factor = factorEnvelope(information);
  if (!factor) throw new RangeError('information of the variances is singular');
  const weights = factor.inverse();
  return (functions) => testFunctions(functions, state, weights, components);
}

function testFunctions(
  functions: readonly Float64Array[],
  state: LikelihoodState,
  weights: Float64Array,
  components: number,
): LinearTest {
  const q = functions.length;
  const size = state.coefficients.length;
  const phi = state.covariance;
  const rows = new Float64Array(q * size);
  functions.forEach((f, i) => {
    rows.set(f, i * size);
  });
  const rowsPhi = multiply(rows, phi, q, size, size);
  const plain = withTransposed(rowsPhi, rows, q, size);
  // L phi P_r phi L' with P_r = -first[r]
  const turned = state.first.map((matrix) => rowsTimesEnvelope(rowsPhi, matrix, q, size));
  const middle = turned.map((matrix) => withTransposed(matrix, rowsPhi, q, size).map((value) => -value));
  const turnedPhi = turned.map((matrix) => multiply(matrix, phi, q, size, size));
  const adjusted = Float64Array.from(plain);
  for (let r = 0; r < components; r += 1) {
    for (let s = 0; s < components; s += 1) {
      const weight = 2 * weights[r * components + s]!;
      const second = state.second[Math.min(r, s) * components + Math.max(r, s)]!;
      const secondPart = withTransposed(rowsTimesEnvelope(rowsPhi, second, q, size), rowsPhi, q, size);
      // L phi P_r phi P_s phi L'
      const crossPart = withTransposed(turnedPhi[r]!, turned[s]!, q, size);
      for (let i = 0; i < q * q; i += 1) adjusted[i]! += weight * (secondPart[i]! - crossPart[i]!);
    }
  }
  const plainFactor = factorSmall(plain, q);
  const shares = middle.map((matrix) => solveColumns(plainFactor.solve, matrix, q));
  let a1 = 0;
  let a2 = 0;
  for (let r = 0; r < components; r += 1) {
    for (let s = 0; s < components; s += 1) {
      const weight = weights[r * components + s]!;
      a1 += weight * trace(shares[r]!, q) * trace(shares[s]!, q);
      a2 += weight * traceOf(shares[r]!, shares[s]!, q);
    }
  }
  const { scale, denominatorDf } = approximateF(a1, a2, q);
  const estimates = functions.map((f) =>
    f.reduce((sum, value, i) => sum + value * state.coefficients[i]!, 0),
  );
  const solved = factorSmall(adjusted, q).solve(estimates);
  const f = (scale / q) * estimates.reduce((sum, value, i) => sum + value * solved[i]!, 0);
  return {
    numeratorDf: q,
    denominatorDf,
    f,
    p: fisherFUpperTail(f, q, denominatorDf),
    estimates,
    standardErrors: estimates.map((_, i) => Math.sqrt(adjusted[i * q + i]!)),
  };
}

/** Scale and denominator degrees of freedom that match mean and variance of the statistic. */
function approximateF(a1: number, a2: number, q: number): { scale: number; denominatorDf: number } {
  const b = (a1 + 6 * a2) / (2 * q);
  const g = ((q + 1) * a1 - (q + 4) * a2) / ((q + 2) * a2);
  const divisor = 3 * q + 2 * (1 - g);
  const c1 = g / divisor;
  const c2 = (q - g) / divisor;
  const c3 = (q + 2 - g) / divisor;
  const mean = 1 / (1 - a2 / q);
  const variance = ((2 / q) * (1 + c1 * b)) / ((1 - c2 * b) ** 2 * (1 - c3 * b));
  const rho = variance / (2 * mean * mean);
  const denominatorDf = 4 + (q + 2) / (q * rho - 1);
  return { scale: denominatorDf / (mean * (denominatorDf - 2)), denominatorDf };
}

function factorSmall(matrix: Float64Array, q: number): { solve: (right: ArrayLike<number>) => Float64Array } {
  const envelope = envelopeMatrix(q);
  envelope.values.set(matrix);
  envelope.first.fill(0);
  const factor = factorEnvelope(envelope);
  if (!factor) throw new RangeError('the tested functions are not independent');
  return factor;
}

/** Inverse of the factored matrix times a symmetric matrix, as its transpose (same traces). */
function solveColumns(
  solve: (right: ArrayLike<number>) => Float64Array,
  matrix: Float64Array,
  q: number,
): Float64Array {
  const out = new Float64Array(q * q);
  for (let i = 0; i < q; i += 1) {
    const column = solve(matrix.subarray(i * q, (i + 1) * q));
    for (let j = 0; j < q; j += 1) out[j * q + i] = column[j]!;
  }
  return out;
}

/** full (size x size) times an envelope matrix. */
function timesEnvelope(full: Float64Array, envelope: EnvelopeMatrix, size: number): Float64Array {
  return rowsTimesEnvelope(full, envelope, size, size);
}

function rowsTimesEnvelope(
  rows: Float64Array,
  envelope: EnvelopeMatrix,
  count: number,
  size: number,
): Float64Array {
  const out = new Float64Array(count * size);
  for (let i = 0; i < size; i += 1) {
    for (let j = envelope.first[i]!; j <= i; j += 1) {
      const value = envelope.values[i * size + j]!;
      if (value === 0) continue;
      for (let row = 0; row < count; row += 1) {
        out[row * size + j]! += rows[row * size + i]! * value;
        if (i !== j) out[row * size + i]! += rows[row * size + j]! * value;
      }
    }
  }
  return out;
}

/** a (q x size) times b' (size x q). */
function withTransposed(a: Float64Array, b: Float64Array, q: number, size: number): Float64Array {
  const out = new Float64Array(q * q);
  for (let i = 0; i < q; i += 1) {
    for (let j = 0; j < q; j += 1) {
      let sum = 0;
      for (let k = 0; k < size; k += 1) sum += a[i * size + k]! * b[j * size + k]!;
      out[i * q + j] = sum;
    }
  }
  return out;
}

function trace(matrix: Float64Array, q: number): number {
  let sum = 0;
  for (let i = 0; i < q; i += 1) sum += matrix[i * q + i]!;
  return sum;
}

/** trace(A B), row-major. */
function traceOf(a: Float64Array, b: Float64Array, size: number): number {
  let sum = 0;
  for (let i = 0; i < size; i += 1)
    for (let j = 0; j < size; j += 1) sum += a[i * size + j]! * b[j * size + i]!;
  return sum;
}
