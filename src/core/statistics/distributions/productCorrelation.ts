/** A correlation matrix written as loadings[i] * loadings[j] off the diagonal, and how far that misses it. */
export interface ProductCorrelation {
  readonly loadings: readonly number[];
  /** Largest absolute difference from the given matrix off the diagonal. */
  readonly deviation: number;
}

/**
 * The nearest product form of a correlation matrix, by alternating least squares; exact where one exists.
 *
 * @param correlation m x m, ones on the diagonal; correlations with a shared control are not negative
 */
export function productCorrelation(correlation: readonly (readonly number[])[]): ProductCorrelation {
  const size = correlation.length;
  if (size === 1) return { loadings: [0], deviation: 0 };
  const at = (i: number, j: number): number => correlation[i]![j]!;
  if (size === 2)
    return {
      loadings: [Math.sqrt(Math.max(0, at(0, 1))), Math.sqrt(Math.max(0, at(0, 1)))],
      deviation: Math.max(0, -at(0, 1)),
    };
  const loadings = correlation.map((row) =>
    Math.sqrt(Math.max(0, (row.reduce((a, b) => a + b, 0) - 1) / (size - 1))),
  );
  for (let round = 0; round < 500; round += 1) {
    let change = 0;
    for (let i = 0; i < size; i += 1) {
      let top = 0;
      let bottom = 0;
      for (let j = 0; j < size; j += 1) {
        if (j === i) continue;
        top += at(i, j) * loadings[j]!;
        bottom += loadings[j]! * loadings[j]!;
      }
      const next = bottom > 0 ? Math.min(0.999999, Math.max(0, top / bottom)) : 0;
      change = Math.max(change, Math.abs(next - loadings[i]!));
      loadings[i] = next;
    }
    if (change < 1e-13) break;
  }
  let deviation = 0;
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j < i; j += 1)
      deviation = Math.max(deviation, Math.abs(at(i, j) - loadings[i]! * loadings[j]!));
  }
  return { loadings, deviation };
}
