import type { Random } from '../trial/repeatableRandom.ts';
import type { Adjustment, ReferencePhoto } from './adjustment.ts';
import {
  type AdjustTreatmentsOptions,
  POOLING_ALPHA,
  type TreatmentAdjustments,
} from './adjustTreatments.ts';
import { equalErrorRates } from './equalErrorRates.ts';
import { invertErrorRates, pooledErrorRates } from './invertedErrorRates.ts';
import { adjustPhotoCover } from './postStratifiedCover.ts';

/** One photo of a rating date: what its mask says, and what was seen at its points. */
export interface PhotoToAdjust {
  readonly photo: string;
  /** Null where it belongs to no treatment. */
  readonly treatment: string | null;
  /** The mask's share of each class, adds to 1. */
  readonly mappedFraction: readonly number[];
  /** Rows class on the mask, columns class observed; null without points. */
  readonly counts: readonly (readonly number[])[] | null;
}

/** How the photos of a rating date are adjusted: one way for all of them. */
export interface PhotoAdjustments extends Pick<TreatmentAdjustments, 'reason' | 'test'> {
  readonly way: 'own-points' | 'pooled';
  /** Photos can be refused one by one. */
  readonly photos: readonly { readonly photo: string; readonly adjustment: Adjustment }[];
}

/**
 * Adjusts the cover of every photo of one rating date for the mask's errors, so that a comparison has one figure a photo.
 *
 * From each photo's own points where all of them have enough. Otherwise, if no difference is found in how the mask errs in
 * the treatments, the pooled error rates are inverted for every photo, those with points included, so that all plots have
 * their figure in the same way. The mean of such figures is the treatment's own, but for covers cut at 0. The errors of
 * pooled figures hang together between photos; a comparison of treatments takes out what they share.
 *
 * @param reference photos whose points tell how the mask errs, drawn at random within each treatment
 * @param random for the test, e.g. `repeatableRandom(seed)`
 */
export function adjustPhotos(
  photos: readonly PhotoToAdjust[],
  reference: readonly ReferencePhoto[],
  classIds: readonly string[],
  random: Random,
  { alpha = POOLING_ALPHA, confidence = 0.95, permutations }: AdjustTreatmentsOptions = {},
): PhotoAdjustments {
  const test = equalErrorRates(reference, classIds, random, permutations);
  const own = photos.map(({ photo, counts, mappedFraction }) => {
    const adjustment: Adjustment = counts
      ? adjustPhotoCover(counts, mappedFraction, classIds, confidence)
      : { ok: false, code: 'no-points' };
    return { photo, adjustment };
  });
  const alone = (reason: PhotoAdjustments['reason']): PhotoAdjustments => ({
    way: 'own-points',
    reason,
    test,
    photos: own,
  });
  if (own.every(({ adjustment }) => adjustment.ok)) return alone('own-points-suffice');
  if (test.smallestP === null) return alone('rates-untested');
  if (test.smallestP < alpha) return alone('rates-differ');
  const rates = pooledErrorRates(reference, classIds);
  if (!rates.ok) return alone('pooled-rates-unusable');
  const checked = new Set(reference.map(({ treatment }) => treatment));
  return {
    way: 'pooled',
    reason: 'rates-not-different',
    test,
    photos: photos.map(({ photo, treatment, mappedFraction }) => {
      if (treatment === null || !checked.has(treatment)) {
        return { photo, adjustment: { ok: false, code: 'no-points' } as const };
      }
      const adjustment = invertErrorRates(rates, { mappedFraction, photos: 1 }, confidence);
      return { photo, adjustment: adjustment.ok ? { ...adjustment, target: 'frame' } : adjustment };
    }),
  };
}
