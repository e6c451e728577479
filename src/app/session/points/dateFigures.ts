import { adjustPhotos } from '../../../core/cover/adjustPhotos.ts';
import { adjustTreatments, type MappedTreatment } from '../../../core/cover/adjustTreatments.ts';
import { maskErrorsOf, referencePhotosOf } from '../../../core/cover/maskErrors.ts';
import type { CountedPhoto } from '../../../core/point-grid/countedPhoto.ts';
import { groupBy } from '../../../core/trial/groupBy.ts';
import { repeatableRandom, seedFor } from '../../../core/trial/repeatableRandom.ts';
import type { DateFigures, RatingDate } from './pointsState.ts';

/** A measured photo of a rating date, whether it has points or not. */
export interface MeasuredPhoto {
  readonly photoId: string;
  readonly treatment: string | null;
  /** Shares of its mask in class order, adding to 1. */
  readonly mappedFraction: readonly number[];
}

interface CountOfDate {
  readonly photos: readonly CountedPhoto[];
  readonly measured: readonly MeasuredPhoto[];
  readonly observer: string;
  readonly classIds: readonly string[];
}

/** What one observer's points make of the masks of a rating date. Masks of photos without points take part. */
export function dateFigures(
  ratingDate: RatingDate,
  { photos, measured, observer, classIds }: CountOfDate,
): DateFigures {
  const reference = referencePhotosOf(photos, observer, classIds);
  const seed = seedFor(photos[0]?.set.seed ?? 0, 'equal error rates', ratingDate ?? '');
  if (measured.length === 0 || !photos.some(({ mask }) => mask)) {
    return { photos, byPhoto: null, byTreatment: null };
  }
  const byPhoto = adjustPhotos(
    measured.map(({ photoId, treatment, mappedFraction }) => {
      const own = photos.find((photo) => photo.photoId === photoId);
      const errors = own && maskErrorsOf(own, observer, classIds);
      return {
        photo: photoId,
        treatment,
        mappedFraction,
        counts: errors && errors.points > 0 ? errors.counts : null,
      };
    }),
    reference,
    classIds,
    repeatableRandom(seed),
  );
  const mapped = [...groupBy(measured, ({ treatment }) => treatment)].flatMap(
    ([treatment, own]): MappedTreatment[] =>
      treatment === null
        ? []
        : [
            {
              treatment,
              photos: own.length,
              mappedFraction: classIds.map(
                (_, i) => own.reduce((sum, { mappedFraction }) => sum + mappedFraction[i]!, 0) / own.length,
              ),
            },
          ],
  );
  mapped.sort((a, b) => a.treatment.localeCompare(b.treatment, 'en', { numeric: true }));
  const byTreatment =
    mapped.length > 0 ? adjustTreatments(reference, mapped, classIds, repeatableRandom(seed)) : null;
  return { photos, byPhoto, byTreatment };
}
