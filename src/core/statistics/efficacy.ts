/**
 * Percent control against the untreated control, from amounts left (cover, counts): 100 (1 - treated / untreated).
 *
 * A treated value above the untreated one gives a negative number, shown as it is. Null when the untreated value is 0.
 *
 * @see Abbott 1925, J. Econ. Entomol. 18:265, in its form for populations
 */
export function percentControl(untreated: number, treated: number): number | null {
  return untreated > 0 ? 100 * (1 - treated / untreated) : null;
}

/**
 * Percent control corrected for what stood there before: 100 (1 - treatedAfter x untreatedBefore / (treatedBefore x
 * untreatedAfter)). Null when a divisor is 0.
 *
 * @see Henderson & Tilton 1955, J. Econ. Entomol. 48:157
 */
export function hendersonTilton(
  untreatedBefore: number,
  untreatedAfter: number,
  treatedBefore: number,
  treatedAfter: number,
): number | null {
  const divisor = treatedBefore * untreatedAfter;
  return divisor > 0 ? 100 * (1 - (treatedAfter * untreatedBefore) / divisor) : null;
}

/**
 * Mortality corrected for natural mortality, all in percent: 100 (treated - untreated) / (100 - untreated). Null when
 * nothing survives untreated.
 *
 * @see Schneider-Orelli 1947
 */
export function schneiderOrelli(
  mortalityUntreatedPercent: number,
  mortalityTreatedPercent: number,
): number | null {
  const left = 100 - mortalityUntreatedPercent;
  return left > 0 ? (100 * (mortalityTreatedPercent - mortalityUntreatedPercent)) / left : null;
}
