/**
 * Arithmetic mean.
 *
 * @param values one or more
 * @throws RangeError without a value
 */
export function mean(values: readonly number[]): number {
  if (values.length === 0) throw new RangeError('a mean needs at least one value');
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}
