/**
 * Variance of an estimate from what each cluster adds to its error: m / (m - 1) sum d^2 / size^2.
 *
 * @param deviations of m clusters; they add to 0, as residuals about the estimate do
 * @param size what their sum is divided by to give the error: points for a ratio, clusters for a mean, 1
 * where done already
 * @returns null for fewer than 2 clusters
 * @see Cochran 1977, Sampling Techniques, sections 3.12 and 11.2
 */
export function clusterVariance(deviations: readonly number[], size: number): number | null {
  const m = deviations.length;
  if (m < 2) return null;
  return ((m / (m - 1)) * deviations.reduce((sum, d) => sum + d * d, 0)) / (size * size);
}
