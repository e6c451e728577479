/**
 * Symmetric matrix kept in full, of which each row knows its first entry that is not zero.
 *
 * Where treatments meet only through a few block columns placed last, factoring costs the sum of the squared row lengths
 * instead of the cube of the size.
 */
export interface EnvelopeMatrix {
  readonly size: number;
  /** Row-major, both triangles filled. */
  readonly values: Float64Array;
  /** First filled column of each row, at most the diagonal. */
  readonly first: Int32Array;
}

/** A matrix of zeros. */
export function envelopeMatrix(size: number): EnvelopeMatrix {
  return {
    size,
    values: new Float64Array(size * size),
    first: Int32Array.from({ length: size }, (_, i) => i),
  };
}

/** Adds to an entry and its mirror image. Writes to `matrix`. */
export function addSymmetric(matrix: EnvelopeMatrix, i: number, j: number, value: number): void {
  const { size, values, first } = matrix;
  values[i * size + j]! += value;
  if (i !== j) values[j * size + i]! += value;
  const row = Math.max(i, j);
  first[row] = Math.min(first[row]!, i, j);
}

/** Cholesky factor of a positive definite matrix, or null when it is not one. */
export interface CholeskyFactor {
  readonly logDeterminant: number;
  readonly solve: (right: ArrayLike<number>) => Float64Array;
  /** The inverse, row-major. */
  readonly inverse: () => Float64Array;
}

/** Factors a matrix inside its envelope. */
export function factorEnvelope(matrix: EnvelopeMatrix): CholeskyFactor | null {
  const { size, first } = matrix;
  const lower = Float64Array.from(matrix.values);
  let logDeterminant = 0;
  for (let i = 0; i < size; i += 1) {
    const rowStart = i * size;
    for (let j = first[i]!; j < i; j += 1) {
      const other = j * size;
      let sum = lower[rowStart + j]!;
      for (let k = Math.max(first[i]!, first[j]!); k < j; k += 1)
        sum -= lower[rowStart + k]! * lower[other + k]!;
      lower[rowStart + j] = sum / lower[other + j]!;
    }
    const diagonal = matrix.values[rowStart + i]!;
    let sum = diagonal;
    for (let k = first[i]!; k < i; k += 1) sum -= lower[rowStart + k]! ** 2;
    if (!(sum > 1e-10 * diagonal)) return null;
    lower[rowStart + i] = Math.sqrt(sum);
    logDeterminant += Math.log(sum);
  }
  /** Everything of the right side before `from` is 0. */
  const solveFrom = (right: ArrayLike<number>, from: number): Float64Array => {
    const x = Float64Array.from(right);
    for (let i = from; i < size; i += 1) {
      let sum = x[i]!;
      for (let k = Math.max(from, first[i]!); k < i; k += 1) sum -= lower[i * size + k]! * x[k]!;
      x[i] = sum / lower[i * size + i]!;
    }
    for (let i = size - 1; i >= 0; i -= 1) {
      const value = x[i]! / lower[i * size + i]!;
      x[i] = value;
      if (value === 0) continue;
      for (let k = first[i]!; k < i; k += 1) x[k]! -= lower[i * size + k]! * value;
    }
    return x;
  };
  return {
    logDeterminant,
    solve: (right) => solveFrom(right, 0),
    inverse: () => {
      const out = new Float64Array(size * size);
      const unit = new Float64Array(size);
      for (let i = 0; i < size; i += 1) {
        unit[i] = 1;
        out.set(solveFrom(unit, i), i * size);
        unit[i] = 0;
      }
      return out;
    },
  };
}
