/**
 * Holm's step-down p values, holding the family's error rate without assuming anything on the correlations.
 *
 * @see Holm 1979, Scand. J. Stat. 6:65
 */
export function holmAdjusted(pValues: readonly number[]): number[] {
  const order = pValues.map((_, index) => index).sort((a, b) => pValues[a]! - pValues[b]!);
  const adjusted = new Array<number>(pValues.length);
  let running = 0;
  order.forEach((index, rank) => {
    running = Math.max(running, Math.min(1, (pValues.length - rank) * pValues[index]!));
    adjusted[index] = running;
  });
  return adjusted;
}
