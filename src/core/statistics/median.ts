/**
 * Median; the mean of the two middle values where their number is even.
 *
 * @param values one or more, in any order
 * @throws RangeError without a value
 */
export function median(values: readonly number[]): number {
  if (values.length === 0) throw new RangeError('a median needs at least one value');
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
