/** Smallest share of a column's length that must be new, not a combination of the columns before it. */
const RANK_TOLERANCE = 1e-9;

/** Orthogonal decomposition of a tall matrix, columns taken in the given order, dependent columns left aside. */
export interface OrthogonalDecomposition {
  readonly rank: number;
  /** Indices of the independent columns, in order; `pivots[i]` belongs to row i of the triangle. */
  readonly pivots: readonly number[];
  /** Indices of the columns that depend on earlier ones. */
  readonly aliased: readonly number[];
  /** For each column of the matrix its coordinates in the orthogonal basis (`rank` numbers; 0 below the diagonal). */
  readonly triangle: readonly Float64Array[];
  /** Q' v: coordinates of a vector, the first `rank` in the column space, the rest in the residual space. */
  readonly toCoordinates: (vector: ArrayLike<number>) => Float64Array;
  /** Q c: back from coordinates. */
  readonly fromCoordinates: (coordinates: ArrayLike<number>) => Float64Array;
}

/**
 * Householder QR with the columns in their order; a column that is a combination of earlier ones is set aside.
 *
 * Cost is rows x columns squared. The order is what makes sums of squares sequential.
 *
 * @param columns of equal length, at least one
 * @see Golub & Van Loan 2013, Matrix Computations, 5.2
 */
export function householderQr(columns: readonly Float64Array[]): OrthogonalDecomposition {
  const rows = columns[0]!.length;
  const work = columns.map((column) => Float64Array.from(column));
  const reflectors: Float64Array[] = [];
  const pivots: number[] = [];
  const aliased: number[] = [];
  work.forEach((column, index) => {
    const length = norm(columns[index]!, 0);
    for (let k = 0; k < reflectors.length; k += 1) reflect(reflectors[k]!, k, column);
    const start = reflectors.length;
    const rest = start < rows ? norm(column, start) : 0;
    if (rest <= RANK_TOLERANCE * length || rest === 0) {
      aliased.push(index);
      column.fill(0, start);
      return;
    }
    const diagonal = column[start]! > 0 ? -rest : rest;
    const reflector = new Float64Array(rows);
    for (let i = start; i < rows; i += 1) reflector[i] = column[i]!;
    reflector[start]! -= diagonal;
    const scale = 1 / norm(reflector, start);
    for (let i = start; i < rows; i += 1) reflector[i]! *= scale;
    reflectors.push(reflector);
    pivots.push(index);
    column[start] = diagonal;
    column.fill(0, start + 1);
  });
  const rank = pivots.length;
  return {
    rank,
    pivots,
    aliased,
    triangle: work.map((column) => column.slice(0, rank)),
    toCoordinates: (vector) => {
      const out = Float64Array.from(vector);
      for (let k = 0; k < rank; k += 1) reflect(reflectors[k]!, k, out);
      return out;
    },
    fromCoordinates: (coordinates) => {
      const out = Float64Array.from(coordinates);
      for (let k = rank - 1; k >= 0; k -= 1) reflect(reflectors[k]!, k, out);
      return out;
    },
  };
}

function reflect(reflector: Float64Array, start: number, vector: Float64Array): void {
  let dot = 0;
  for (let i = start; i < vector.length; i += 1) dot += reflector[i]! * vector[i]!;
  dot *= 2;
  for (let i = start; i < vector.length; i += 1) vector[i]! -= dot * reflector[i]!;
}

function norm(vector: Float64Array, start: number): number {
  let sum = 0;
  for (let i = start; i < vector.length; i += 1) sum += vector[i]! * vector[i]!;
  return Math.sqrt(sum);
}
