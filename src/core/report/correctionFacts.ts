import {
  correctionsByTreatment,
  type LopsidedWarning,
  lopsidedWarnings,
  type TreatmentCorrections,
} from '../mask/correctionsByTreatment.ts';
import { compareNames } from '../statistics/plotObservation.ts';
import type { ReportPhoto, ReportReview, ReportSignOff } from './reportSource.ts';

/** What people did to the masks. */
export interface CorrectionFacts {
  /** Photos with an automatic mask. */
  readonly masks: number;
  /** Of these a person looked at the present figure, or corrected it. */
  readonly lookedAt: number;
  readonly corrected: number;
  /** Mean over all masks of the share of ground whose class was changed by hand, 0..1. */
  readonly meanChangedFraction: number;
  /** Empty before an analysis was declared, and where photos differ in their classes. */
  readonly byTreatment: readonly TreatmentCorrections[];
  readonly warnings: readonly LopsidedWarning[];
  /** The newest of each rating date. */
  readonly signOffs: readonly ReportSignOff[];
}

interface CorrectionSource {
  readonly photos: readonly ReportPhoto[];
  readonly reviews: readonly ReportReview[];
  readonly signOffs: readonly ReportSignOff[];
  /** The treatment of a photo's plot. */
  readonly treatmentOf: (photo: ReportPhoto) => string;
  readonly showTreatments: boolean;
}

/** @returns null where no photo was measured */
export function correctionFacts(source: CorrectionSource): CorrectionFacts | null {
  const { photos, reviews, signOffs, treatmentOf, showTreatments } = source;
  const looked = new Map(
    reviews
      .filter(({ verdict }) => verdict !== 'skipped')
      .map(({ photoId, figureId }) => [photoId, figureId]),
  );
  const masks = photos.flatMap((photo) => {
    const { automatic, corrected } = photo.figures;
    if (!automatic) return [];
    const changedFraction = corrected?.changedFraction ?? 0;
    const seen = looked.get(photo.id);
    return [
      {
        treatment: treatmentOf(photo),
        // a figure made since was not looked at
        reviewed: seen !== undefined && (seen === automatic.id || seen === corrected?.id),
        changedFraction,
        netChange: automatic.cover.map(
          ({ coverFraction }, i) => (corrected?.cover[i]?.coverFraction ?? coverFraction) - coverFraction,
        ),
      },
    ];
  });
  if (masks.length === 0) return null;
  const alike = masks.every(({ netChange }) => netChange.length === masks[0]!.netChange.length);
  const byTreatment =
    showTreatments && alike
      ? correctionsByTreatment(masks).sort((a, b) => compareNames(a.treatment, b.treatment))
      : [];
  return {
    masks: masks.length,
    lookedAt: masks.filter(({ reviewed, changedFraction }) => reviewed || changedFraction > 0).length,
    corrected: masks.filter(({ changedFraction }) => changedFraction > 0).length,
    meanChangedFraction: masks.reduce((sum, { changedFraction }) => sum + changedFraction, 0) / masks.length,
    byTreatment,
    warnings: lopsidedWarnings(byTreatment),
    signOffs: newestOfDates(signOffs),
  };
}

function newestOfDates(signOffs: readonly ReportSignOff[]): ReportSignOff[] {
  const newest = new Map<string, ReportSignOff>();
  for (const signOff of [...signOffs].sort((a, b) => compareNames(a.at, b.at))) {
    newest.set(signOff.ratingDate, signOff);
  }
  return [...newest.values()].sort((a, b) => compareNames(a.ratingDate, b.ratingDate));
}
