import { groupBy } from '../trial/groupBy.ts';
import type { Random } from '../trial/repeatableRandom.ts';
import type { Adjustment, ReferencePhoto } from './adjustment.ts';
import { type EqualRatesTest, equalErrorRates, PERMUTATIONS } from './equalErrorRates.ts';
import { invertErrorRates, type MappedMean, pooledErrorRates } from './invertedErrorRates.ts';
import { adjustTreatmentCover } from './postStratifiedCover.ts';

/** Mean of the mask's shares over all photos of a treatment on a rating date. */
export interface MappedTreatment extends MappedMean {
  readonly treatment: string;
}

/** How the treatments of a rating date are adjusted: one way for all of them. */
export interface TreatmentAdjustments {
  readonly way: 'pooled' | 'per-treatment';
  /**
   * Why: `own-points-suffice` (every treatment can be adjusted from its own points, which assumes nothing),
   * `rates-not-different` (some cannot, and the test found no difference), `rates-differ`, `rates-untested`
   * (too few photos or treatments to test), `pooled-rates-unusable` (a class without points, or a mask that
   * mixes classes up).
   */
  readonly reason:
    | 'own-points-suffice'
    | 'rates-not-different'
    | 'rates-differ'
    | 'rates-untested'
    | 'pooled-rates-unusable';
  readonly test: EqualRatesTest;
  /** Treatments can be refused one by one. */
  readonly treatments: readonly { readonly treatment: string; readonly adjustment: Adjustment }[];
}

/**
 * Level of the test before pooling: far above the usual, since pooling unlike rates biases while not pooling
 * only costs points.
 *
 * @see Bozivich, Bancroft & Hartley 1956, Ann. Math. Stat. 27:1017, who advise about 0.25 (from memory)
 */
export const POOLING_ALPHA = 0.25;

export interface AdjustTreatmentsOptions {
  /** Error rates count as different below this p. @default POOLING_ALPHA */
  readonly alpha?: number;
  /** @default 0.95 */
  readonly confidence?: number;
  /** @default 999 */
  readonly permutations?: number;
}

/**
 * Adjusts the cover of all treatments of one rating date for the mask's errors.
 *
 * From each treatment's own points where all of them have enough: as precise as pooling in simulations
 * (docs/method.md), and no assumption is needed. Otherwise, if no difference is found in how the mask errs in
 * the treatments, their error rates are pooled and inverted for each; a treatment without any point is
 * refused all the same, since nothing tells how the mask errs in it. If rates differ or cannot be tested,
 * treatments with too few points are refused.
 *
 * @param reference photos with points, drawn at random within each treatment
 * @param random for the test, e.g. `repeatableRandom(seed)`
 */
export function adjustTreatments(
  reference: readonly ReferencePhoto[],
  mapped: readonly MappedTreatment[],
  classIds: readonly string[],
  random: Random,
  options: AdjustTreatmentsOptions = {},
): TreatmentAdjustments {
  const { alpha = POOLING_ALPHA, confidence = 0.95, permutations = PERMUTATIONS } = options;
  const test = equalErrorRates(reference, classIds, random, permutations);
  const byTreatment = groupBy(reference, ({ treatment }) => treatment);
  const own = mapped.map(({ treatment, mappedFraction }) => ({
    treatment,
    adjustment: adjustTreatmentCover(byTreatment.get(treatment) ?? [], mappedFraction, classIds, confidence),
  }));
  if (own.every(({ adjustment }) => adjustment.ok)) {
    return { way: 'per-treatment', reason: 'own-points-suffice', test, treatments: own };
  }
  if (test.smallestP === null)
    return { way: 'per-treatment', reason: 'rates-untested', test, treatments: own };
  if (test.smallestP < alpha) return { way: 'per-treatment', reason: 'rates-differ', test, treatments: own };
  const rates = pooledErrorRates(reference, classIds);
  if (!rates.ok) return { way: 'per-treatment', reason: 'pooled-rates-unusable', test, treatments: own };
  const treatments = mapped.map((mean, i) => {
    const { treatment, adjustment } = own[i]!;
    const hasNoPoints = !adjustment.ok && adjustment.code === 'no-points';
    return { treatment, adjustment: hasNoPoints ? adjustment : invertErrorRates(rates, mean, confidence) };
  });
  return { way: 'pooled', reason: 'rates-not-different', test, treatments };
}
