/** Weights of equal bins: bin i is centred at first + i * step. */
export interface Histogram {
  readonly first: number;
  readonly step: number;
  readonly weights: Float64Array;
}

/** The same histogram with its weights scaled to a given sum. @throws RangeError if it is empty */
export function scaledTo(histogram: Histogram, sum: number): Histogram {
  let total = 0;
  for (const weight of histogram.weights) total += weight;
  if (!(total > 0)) throw new RangeError('the histogram is empty');
  return { ...histogram, weights: histogram.weights.map((weight) => (weight * sum) / total) };
}

/** The centre of the bin at which half of the weight is reached. @throws RangeError if it is empty */
export function histogramMedian({ first, step, weights }: Histogram): number {
  let total = 0;
  for (const weight of weights) total += weight;
  let reached = 0;
  for (let bin = 0; bin < weights.length; bin += 1) {
    reached += weights[bin]!;
    if (total > 0 && 2 * reached >= total) return first + bin * step;
  }
  throw new RangeError('the histogram is empty');
}
