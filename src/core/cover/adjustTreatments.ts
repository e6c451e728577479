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
   * Why: `rates-not-different` (the test found no difference), `rates-differ`, `rates-untested` (too few photos or treatments to
   * test), `pooled-rates-unusable` (a class without points, or a mask that mixes classes up).
   */
  readonly reason: 'rates-not-different' | 'rates-differ' | 'rates-untested' | 'pooled-rates-unusable';
  readonly test: EqualRatesTest;
  /** Treatments can be refused one by one when adjusted from their own points. */
  readonly treatments: readonly { readonly treatment: string; readonly adjustment: Adjustment }[];
}

export interface AdjustTreatmentsOptions {
  /** Error rates count as different below this p. Higher than usual: pooling wrongly biases, not pooling only widens. @default 0.1 */
  readonly alpha?: number;
  /** @default 0.95 */
  readonly confidence?: number;
  /** @default 999 */
  readonly permutations?: number;
}

/**
 * Adjusts the cover of all treatments of one rating date for the mask's errors.
 *
 * If the mask errs alike in all treatments, its error rates are pooled and inverted for each; if not, or if that cannot be tested, each treatment is
 * adjusted from its own points alone or refused.
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
  const { alpha = 0.1, confidence = 0.95, permutations = PERMUTATIONS } = options;
  const test = equalErrorRates(reference, classIds, random, permutations);
  const rates = pooledErrorRates(reference, classIds);
  const reason =
    test.smallestP === null
      ? 'rates-untested'
      : test.smallestP < alpha
        ? 'rates-differ'
        : rates.ok
          ? 'rates-not-different'
          : 'pooled-rates-unusable';
  if (rates.ok && reason === 'rates-not-different') {
    const treatments = mapped.map((mean) => ({
      treatment: mean.treatment,
      adjustment: invertErrorRates(rates, mean, confidence),
    }));
    return { way: 'pooled', reason, test, treatments };
  }
  const own = groupBy(reference, ({ treatment }) => treatment);
  const treatments = mapped.map(({ treatment, mappedFraction }) => ({
    treatment,
    adjustment: adjustTreatmentCover(own.get(treatment) ?? [], mappedFraction, classIds, confidence),
  }));
  return { way: 'per-treatment', reason, test, treatments };
}
