import type { FeaturePlanes } from '../features/featurePlanes.ts';
import { layOut } from '../kernels/kernelMemory.ts';
import { type Kernels, loadKernels } from '../kernels/kernels.ts';

/** A quadratic polynomial of the features: constant, linear terms, and the upper triangle of the square terms. */
export interface Polynomial {
  readonly constant: number;
  readonly linear: Float64Array;
  /** Row 0, then row 1 from its diagonal, and so on. */
  readonly square: Float64Array;
}

/** What is scored: the planes of features and which cells count. */
type Scored = Pick<FeaturePlanes, 'planes' | 'measured'>;

/**
 * Two polynomials at each cell that counts, rounded to whole numbers.
 *
 * @param outA one entry a cell, as `outB`: of the first and of the second polynomial
 */
export function scorePair(
  features: Scored,
  pair: readonly [Polynomial, Polynomial],
  outA: Int32Array,
  outB: Int32Array,
): void {
  const kernels = loadKernels();
  if (kernels) scorePairBy(kernels, features, pair, outA, outB);
  else plainScorePair(features, pair, outA, outB);
}

/** Cells that go through the kernel at a time: their planes stay in the processor's nearer memory. A multiple of 4. */
const CELLS_AT_ONCE = 16384;

/** The same by kernels. */
export function scorePairBy(
  kernels: Kernels,
  { planes, measured }: Scored,
  pair: readonly [Polynomial, Polynomial],
  outA: Int32Array,
  outB: Int32Array,
): void {
  const size = planes.length;
  const terms = termsOf(pair);
  const [termsAt, scratchAt, planesAt, measuredAt, outAtA, outAtB] = layOut(kernels, [
    8 * terms.length,
    64 * size,
    2 * size * CELLS_AT_ONCE,
    CELLS_AT_ONCE,
    4 * CELLS_AT_ONCE,
    4 * CELLS_AT_ONCE,
  ]);
  const { buffer } = kernels.memory;
  new Float64Array(buffer, termsAt, terms.length).set(terms);
  for (let first = 0; first < measured.length; first += CELLS_AT_ONCE) {
    const cells = Math.min(CELLS_AT_ONCE, measured.length - first);
    const padded = Math.ceil(cells / 4) * 4;
    for (let f = 0; f < size; f += 1) {
      const plane = planes[f]!.subarray(first, first + cells);
      new Int16Array(buffer, planesAt + 2 * f * padded, padded).set(plane);
    }
    new Uint8Array(buffer, measuredAt, padded).fill(0, cells).set(measured.subarray(first, first + cells));
    kernels.scorePair(planesAt, measuredAt, padded, size, termsAt, scratchAt, outAtA, outAtB);
    outA.set(new Int32Array(buffer, outAtA, cells), first);
    outB.set(new Int32Array(buffer, outAtB, cells), first);
  }
}

/**
 * Pairs of coefficients in the order they are used: the constants, half a step up so that rounding down rounds; then for
 * each feature its linear terms and the row of its square terms.
 */
function termsOf([a, b]: readonly [Polynomial, Polynomial]): Float64Array {
  const size = a.linear.length;
  const terms = new Float64Array(2 * (1 + size + a.square.length));
  terms.set([a.constant + 0.5, b.constant + 0.5]);
  let at = 2;
  let triangle = 0;
  for (let i = 0; i < size; i += 1) {
    terms[at] = a.linear[i]!;
    terms[at + 1] = b.linear[i]!;
    at += 2;
    for (let j = i; j < size; j += 1) {
      terms[at] = a.square[triangle]!;
      terms[at + 1] = b.square[triangle]!;
      at += 2;
      triangle += 1;
    }
  }
  return terms;
}

/** The same in plain code. */
export function plainScorePair(
  { planes, measured }: Scored,
  pair: readonly [Polynomial, Polynomial],
  outA: Int32Array,
  outB: Int32Array,
): void {
  const size = planes.length;
  const terms = termsOf(pair);
  const x = new Float64Array(size);
  for (let cell = 0; cell < measured.length; cell += 1) {
    if (measured[cell] === 0) continue;
    for (let f = 0; f < size; f += 1) x[f] = planes[f]![cell]!;
    let scoreA = terms[0]!;
    let scoreB = terms[1]!;
    let at = 2;
    for (let i = 0; i < size; i += 1) {
      let factorA = terms[at]!;
      let factorB = terms[at + 1]!;
      at += 2;
      for (let j = i; j < size; j += 1) {
        const value = x[j]!;
        factorA += terms[at]! * value;
        factorB += terms[at + 1]! * value;
        at += 2;
      }
      const value = x[i]!;
      scoreA += factorA * value;
      scoreB += factorB * value;
    }
    outA[cell] = Math.floor(scoreA);
    outB[cell] = Math.floor(scoreB);
  }
}
