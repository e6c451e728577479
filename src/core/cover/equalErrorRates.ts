import { holmAdjusted } from '../statistics/holm.ts';
import { groupBy } from '../trial/groupBy.ts';
import { type Random, shuffled } from '../trial/repeatableRandom.ts';
import { type ReferencePhoto, sumOf } from './adjustment.ts';
import { addMatrices } from './errorMatrix.ts';

/** Whether the mask errs alike in all treatments. */
export interface EqualRatesTest {
  /**
   * For each observed class: p that treatments differ so much by chance; null where it was seen in fewer than
   * two treatments.
   */
  readonly p: readonly (number | null)[];
  /** Smallest p after Holm's correction over the classes; null when no class can be tested. */
  readonly smallestP: number | null;
  readonly photos: number;
  readonly treatments: number;
  /** Class and treatment where so few points were observed that a difference could hardly show. */
  readonly hardlyTested: readonly {
    readonly treatment: string;
    readonly classId: string;
    readonly points: number;
  }[];
}

/** Below this number of points a class is hardly tested in a treatment. Choice of this project. */
const FEW_POINTS = 10;

/** How often treatments are dealt out anew, where there are more ways than this to deal them. */
export const PERMUTATIONS = 999;

/**
 * Tests for each observed class whether P(mask class | observed class) is the same in all treatments.
 *
 * Pearson's chi-square of treatments against mask classes, with its p from dealing the treatments out anew
 * among the photos: points of one photo share light and patches, so photos, not points, are exchanged. All
 * ways to deal are tried where there are few; else a random sample of them, in which the true one counts. A
 * high p is no proof of equal rates; with few photos only coarse differences show.
 *
 * @param random deals the treatments out, e.g. `repeatableRandom(seed)`
 * @see Good 2005, Permutation, Parametric and Bootstrap Tests of Hypotheses, 3rd edition
 */
export function equalErrorRates(
  photos: readonly ReferencePhoto[],
  classIds: readonly string[],
  random: Random,
  permutations = PERMUTATIONS,
): EqualRatesTest {
  const judged = photos.filter(({ counts }) => sumOf(counts.flat()) > 0);
  const matrices = judged.map(({ counts }) => counts);
  const names = judged.map(({ treatment }) => treatment);
  const groups = groupBy(judged, ({ treatment }) => treatment);
  const hardlyTested = [...groups].flatMap(([treatment, own]) => {
    const total = addMatrices(own.map(({ counts }) => counts));
    return classIds
      .map((classId, j) => ({ treatment, classId, points: sumOf(total.map((row) => row[j]!)) }))
      .filter(({ points }) => points < FEW_POINTS);
  });
  const head = { photos: judged.length, treatments: groups.size, hardlyTested };
  // with one photo in every treatment, treatments cannot be told from photos
  if (groups.size < 2 || judged.length <= groups.size) {
    return { ...head, p: classIds.map(() => null), smallestP: null };
  }
  const seenIn = (j: number) =>
    new Set(names.filter((_, photo) => matrices[photo]!.some((row) => row[j]! > 0))).size;
  const measured = chiSquares(matrices, names, classIds.length);
  const asExtreme = classIds.map(() => 0);
  const compare = (dealt: readonly string[]) => {
    chiSquares(matrices, dealt, classIds.length).forEach((value, j) => {
      // sums in another order differ in their last digits
      if (value >= measured[j]! * (1 - 1e-9)) asExtreme[j]! += 1;
    });
  };
  const ways = waysToDeal([...groups.values()].map((own) => own.length));
  if (ways <= permutations) forEachDeal(names, compare);
  else {
    compare(names);
    for (let round = 0; round < permutations; round += 1) compare(shuffled(names, random));
  }
  const dealt = Math.min(ways, permutations + 1);
  const p = classIds.map((_, j) => (seenIn(j) < 2 ? null : asExtreme[j]! / dealt));
  const tested = p.filter((value) => value !== null);
  return { ...head, p, smallestP: tested.length > 0 ? Math.min(...holmAdjusted(tested)) : null };
}

/** Number of different ways to deal treatments out among photos: n! / (n1! n2! ...). */
function waysToDeal(sizes: readonly number[]): number {
  let [ways, dealt] = [1, 0];
  for (const size of sizes) {
    for (let i = 1; i <= size; i += 1) {
      dealt += 1;
      ways *= dealt / i;
    }
  }
  return Math.round(ways);
}

/** Every different order of names of which some are alike. */
function forEachDeal(names: readonly string[], visit: (dealt: readonly string[]) => void): void {
  const left = new Map([...groupBy(names, (name) => name)].map(([name, own]) => [name, own.length]));
  const dealt: string[] = [];
  const deal = (): void => {
    if (dealt.length === names.length) visit(dealt);
    for (const [name, count] of left) {
      if (count === 0) continue;
      left.set(name, count - 1);
      dealt.push(name);
      deal();
      dealt.pop();
      left.set(name, count);
    }
  };
  deal();
}

/** Pearson's chi-square of treatments against mask classes, for each observed class. */
function chiSquares(
  matrices: readonly (readonly (readonly number[])[])[],
  names: readonly string[],
  size: number,
): number[] {
  const sums = new Map<string, Float64Array>();
  const all = new Float64Array(size * size);
  matrices.forEach((matrix, photo) => {
    const own = sums.get(names[photo]!) ?? new Float64Array(size * size);
    sums.set(names[photo]!, own);
    for (let i = 0; i < size; i += 1) {
      for (let j = 0; j < size; j += 1) {
        own[i * size + j]! += matrix[i]![j]!;
        all[i * size + j]! += matrix[i]![j]!;
      }
    }
  });
  const columnOf = (cells: Float64Array, j: number): number => {
    let sum = 0;
    for (let i = 0; i < size; i += 1) sum += cells[i * size + j]!;
    return sum;
  };
  return Array.from({ length: size }, (_, j) => {
    const allInClass = columnOf(all, j);
    let square = 0;
    for (const own of sums.values()) {
      const inClass = columnOf(own, j);
      for (let i = 0; i < size; i += 1) {
        const expected = (inClass * all[i * size + j]!) / allInClass;
        if (expected > 0) square += (own[i * size + j]! - expected) ** 2 / expected;
      }
    }
    return square;
  });
}
