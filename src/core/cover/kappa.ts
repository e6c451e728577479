/** Agreement of two classifications of the same things, beyond what chance would give. */
export interface Kappa {
  readonly observedAgreement: number;
  readonly chanceAgreement: number;
  /** Null when chance alone would agree completely (one class only): 0 / 0. */
  readonly kappa: number | null;
  /** Standard error for an interval. */
  readonly standardError: number | null;
  /** Standard error when there is no agreement beyond chance, for a test of kappa = 0. */
  readonly standardErrorUnderZero: number | null;
}

/**
 * Cohen's kappa of a square table of counts, with weights for near misses if wanted.
 *
 * @param table rows one rater, columns the other, same classes in the same order
 * @param weighting `none`, or `quadratic` for ordered classes (1 - squared distance) @default 'none'
 * @throws RangeError when the table is not square, has a negative count or is empty
 * @see Cohen 1960, Educ. Psychol. Meas. 20:37; Fleiss, Cohen & Everitt 1969, Psychol. Bull. 72:323 for the errors
 */
export function cohenKappa(
  table: readonly (readonly number[])[],
  weighting: 'none' | 'quadratic' = 'none',
): Kappa {
  const size = table.length;
  if (size === 0 || table.some((row) => row.length !== size))
    throw new RangeError('kappa needs a square table');
  const n = table.flat().reduce((sum, count) => sum + count, 0);
  if (!(n > 0) || table.flat().some((count) => !(count >= 0))) {
    throw new RangeError(`counts must not be negative and not all 0, their sum is ${n}`);
  }
  const weight = (i: number, j: number): number =>
    weighting === 'none' ? Number(i === j) : 1 - ((i - j) / Math.max(1, size - 1)) ** 2;
  const share = table.map((row) => row.map((count) => count / n));
  const rows = share.map((row) => row.reduce((a, b) => a + b, 0));
  const columns = rows.map((_, j) => share.reduce((sum, row) => sum + row[j]!, 0));
  const sum = (of: (i: number, j: number) => number): number =>
    rows.reduce((total, _, i) => total + columns.reduce((inner, _, j) => inner + of(i, j), 0), 0);
  const observedAgreement = sum((i, j) => weight(i, j) * share[i]![j]!);
  const chanceAgreement = sum((i, j) => weight(i, j) * rows[i]! * columns[j]!);
  const beyond = 1 - chanceAgreement;
  if (!(beyond > 1e-12)) {
    return {
      observedAgreement,
      chanceAgreement,
      kappa: null,
      standardError: null,
      standardErrorUnderZero: null,
    };
  }
  const kappa = (observedAgreement - chanceAgreement) / beyond;
  const rowWeight = rows.map((_, i) =>
    columns.reduce((total, column, j) => total + weight(i, j) * column, 0),
  );
  const columnWeight = columns.map((_, j) => rows.reduce((total, row, i) => total + weight(i, j) * row, 0));
  const both = (i: number, j: number): number => rowWeight[i]! + columnWeight[j]!;
  const spread = sum((i, j) => share[i]![j]! * (weight(i, j) - both(i, j) * (1 - kappa)) ** 2);
  const underZero = sum((i, j) => rows[i]! * columns[j]! * (weight(i, j) - both(i, j)) ** 2);
  const variance = (spread - (kappa - chanceAgreement * (1 - kappa)) ** 2) / (n * beyond ** 2);
  const varianceUnderZero = (underZero - chanceAgreement ** 2) / (n * beyond ** 2);
  return {
    observedAgreement,
    chanceAgreement,
    kappa,
    standardError: Math.sqrt(Math.max(0, variance)),
    standardErrorUnderZero: Math.sqrt(Math.max(0, varianceUnderZero)),
  };
}
