import { chiSquareUpperTail } from './distributions/chiSquare.ts';

/** Rank test of equal treatments. */
export interface RankTest {
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  readonly p: number;
}

/** Ranks 1..n, ties sharing their average rank, and the sum of t^3 - t over the ties. */
export function averageRanks(values: readonly number[]): { ranks: number[]; tieTerm: number } {
  const order = values.map((_, index) => index).sort((a, b) => values[a]! - values[b]!);
  const ranks = new Array<number>(values.length);
  let tieTerm = 0;
  for (let start = 0; start < order.length; ) {
    let end = start + 1;
    while (end < order.length && values[order[end]!] === values[order[start]!]) end += 1;
    for (let i = start; i < end; i += 1) ranks[order[i]!] = (start + end + 1) / 2;
    const ties = end - start;
    tieTerm += ties ** 3 - ties;
    start = end;
  }
  return { ranks, tieTerm };
}

/**
 * Kruskal-Wallis test of a completely randomised layout, corrected for ties; null when all values are equal.
 *
 * @param groups values of each treatment, 2 groups or more
 */
export function kruskalWallis(groups: readonly (readonly number[])[]): RankTest | null {
  const n = groups.reduce((sum, group) => sum + group.length, 0);
  const { ranks, tieTerm } = averageRanks(groups.flat());
  const correction = 1 - tieTerm / (n ** 3 - n);
  if (groups.length < 2 || !(correction > 0)) return null;
  let start = 0;
  let sum = 0;
  for (const group of groups) {
    const total = ranks.slice(start, start + group.length).reduce((a, b) => a + b, 0);
    sum += total ** 2 / group.length;
    start += group.length;
  }
  const chiSquare = ((12 * sum) / (n * (n + 1)) - 3 * (n + 1)) / correction;
  const degreesOfFreedom = groups.length - 1;
  return { chiSquare, degreesOfFreedom, p: chiSquareUpperTail(chiSquare, degreesOfFreedom) };
}

/**
 * Friedman's test of a complete block layout, corrected for ties; null when all values of every block are equal.
 *
 * @param blocks for each block one value for each treatment, in the same order
 */
export function friedman(blocks: readonly (readonly number[])[]): RankTest | null {
  const b = blocks.length;
  const k = blocks[0]?.length ?? 0;
  if (b < 2 || k < 2) return null;
  const totals = new Array<number>(k).fill(0);
  let ties = 0;
  for (const block of blocks) {
    const { ranks, tieTerm } = averageRanks(block);
    ties += tieTerm;
    ranks.forEach((rank, j) => {
      totals[j]! += rank;
    });
  }
  const spread = totals.reduce((sum, total) => sum + (total - (b * (k + 1)) / 2) ** 2, 0);
  const bottom = b * k * (k + 1) - ties / (k - 1);
  if (!(bottom > 0)) return null;
  const chiSquare = (12 * spread) / bottom;
  return { chiSquare, degreesOfFreedom: k - 1, p: chiSquareUpperTail(chiSquare, k - 1) };
}
