/** Decimals of a percentage in tables: ten times finer than what a mask is held to, and no more than 100 000 pixels carry. */
export const PERCENT_DECIMALS = 3;

/**
 * A share as the percentage that tables write. Comparisons use it too, so that the same comparison comes out of the table,
 * to the last digit, in whatever program.
 *
 * @param coverFraction 0..1
 */
export function writtenPercent(coverFraction: number): number {
  return Number((100 * coverFraction).toFixed(PERCENT_DECIMALS));
}
