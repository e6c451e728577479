/** Square matrices as flat rows, small enough that nothing cleverer pays. Only + - * / and square roots. */
export type Matrix = Float64Array;

/**
 * The lower triangle L with L L' = matrix.
 *
 * @param matrix symmetric, size x size
 * @throws RangeError if the matrix is not positive definite
 */
export function choleskyFactor(matrix: ArrayLike<number>, size: number): Matrix {
  const factor = new Float64Array(size * size);
  for (let row = 0; row < size; row += 1) {
    for (let column = 0; column <= row; column += 1) {
      let sum = matrix[row * size + column]!;
      for (let k = 0; k < column; k += 1) sum -= factor[row * size + k]! * factor[column * size + k]!;
      if (row !== column) {
        factor[row * size + column] = sum / factor[column * size + column]!;
      } else if (sum > 0) {
        factor[row * size + row] = Math.sqrt(sum);
      } else {
        throw new RangeError(`the matrix is not positive definite: pivot ${row} is ${sum}`);
      }
    }
  }
  return factor;
}

/** The inverse of a Cholesky factor, lower triangular: with W = L^-1, x' (L L')^-1 x is the square of W x. */
export function invertLowerTriangle(factor: Matrix, size: number): Matrix {
  const inverse = new Float64Array(size * size);
  for (let column = 0; column < size; column += 1) {
    inverse[column * size + column] = 1 / factor[column * size + column]!;
    for (let row = column + 1; row < size; row += 1) {
      let sum = 0;
      for (let k = column; k < row; k += 1) sum -= factor[row * size + k]! * inverse[k * size + column]!;
      inverse[row * size + column] = sum / factor[row * size + row]!;
    }
  }
  return inverse;
}

/** The inverse of a symmetric positive definite matrix. @throws RangeError if it is not that */
export function invertSymmetric(matrix: ArrayLike<number>, size: number): Matrix {
  const whitening = invertLowerTriangle(choleskyFactor(matrix, size), size);
  const inverse = new Float64Array(size * size);
  for (let row = 0; row < size; row += 1) {
    for (let column = 0; column <= row; column += 1) {
      let sum = 0;
      for (let k = row; k < size; k += 1) sum += whitening[k * size + row]! * whitening[k * size + column]!;
      inverse[row * size + column] = sum;
      inverse[column * size + row] = sum;
    }
  }
  return inverse;
}

/** Solves matrix x = right for a symmetric positive definite matrix. @throws RangeError if it is not that */
export function solveSymmetric(
  matrix: ArrayLike<number>,
  right: ArrayLike<number>,
  size: number,
): Float64Array {
  const factor = choleskyFactor(matrix, size);
  const x = Float64Array.from(right);
  for (let row = 0; row < size; row += 1) {
    for (let k = 0; k < row; k += 1) x[row]! -= factor[row * size + k]! * x[k]!;
    x[row]! /= factor[row * size + row]!;
  }
  for (let row = size - 1; row >= 0; row -= 1) {
    for (let k = row + 1; k < size; k += 1) x[row]! -= factor[k * size + row]! * x[k]!;
    x[row]! /= factor[row * size + row]!;
  }
  return x;
}
