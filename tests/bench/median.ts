/** Middle value; mean of the two middle ones for an even count. @throws RangeError for no values */
export function median(values: readonly number[]): number {
  if (values.length === 0) throw new RangeError('no values, no median');
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}
