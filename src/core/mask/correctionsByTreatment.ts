import { mean } from '../statistics/mean.ts';
/** One photo of a rating date as the treatments are compared. */
export interface CorrectedPhoto {
  readonly treatment: string;
  /** Whether a person looked at its mask, and accepted or corrected it. */
  readonly reviewed: boolean;
  /** As in `CorrectionSummary`. */
  readonly changedFraction: number;
  /** As in `CorrectionSummary`. */
  readonly netChange: readonly number[];
}

/** How much hand work went into one treatment. Means are over all its photos, touched or not. */
export interface TreatmentCorrections {
  readonly treatment: string;
  readonly photos: number;
  readonly reviewedPhotos: number;
  /** Photos on which the class of something was changed. */
  readonly correctedPhotos: number;
  readonly meanChangedFraction: number;
  /** Mean of corrected less automatic cover a class, in class order. */
  readonly meanNetChange: readonly number[];
}

/**
 * Adds up hand corrections by treatment, in the order in which treatments first appear.
 *
 * @throws RangeError if photos differ in their number of classes
 */
export function correctionsByTreatment(photos: readonly CorrectedPhoto[]): TreatmentCorrections[] {
  const groups = new Map<string, CorrectedPhoto[]>();
  for (const photo of photos) {
    if (photo.netChange.length !== photos[0]!.netChange.length) {
      throw new RangeError(
        `photos of ${photos[0]!.netChange.length} and of ${photo.netChange.length} classes cannot be compared`,
      );
    }
    const group = groups.get(photo.treatment);
    if (group) group.push(photo);
    else groups.set(photo.treatment, [photo]);
  }
  return [...groups].map(([treatment, group]) => ({
    treatment,
    photos: group.length,
    reviewedPhotos: group.filter(wasSeen).length,
    correctedPhotos: group.filter(({ changedFraction }) => changedFraction > 0).length,
    meanChangedFraction: mean(group.map(({ changedFraction }) => changedFraction)),
    meanNetChange: group[0]!.netChange.map((_, i) => mean(group.map(({ netChange }) => netChange[i]!))),
  }));
}

/** A corrected photo was looked at, whether or not it was also marked so. */
const wasSeen = ({ reviewed, changedFraction }: CorrectedPhoto) => reviewed || changedFraction > 0;

/** A treatment and a value of it. */
export interface OfTreatment {
  readonly treatment: string;
  readonly fraction: number;
}

/**
 * What makes hand corrections doubtful in a comparison of treatments. Values are shares, 0..1; the catalogue in
 * core/text makes sentences of them.
 */
export type LopsidedWarning =
  /** Corrections were made, but of some treatments no photo was looked at. */
  | {
      readonly code: 'corrections-treatments-left-out';
      readonly seen: readonly string[];
      readonly leftOut: readonly string[];
    }
  /** Corrections were made, and a larger share of photos was looked at in one treatment than in another. */
  | { readonly code: 'corrections-uneven-review'; readonly most: OfTreatment; readonly least: OfTreatment }
  /** Corrections moved one class further in one treatment than in another: the difference rests on hand work. */
  | {
      readonly code: 'corrections-move-comparison';
      readonly label: number;
      readonly most: OfTreatment;
      readonly least: OfTreatment;
    };

export interface LopsidedLimits {
  /** Difference in the share of photos looked at. @default 0.25 */
  readonly reviewedFraction?: number;
  /** Difference in the mean net change of a class. @default 0.02, the error of cover that is aimed for */
  readonly netChange?: number;
}

/**
 * Whether treatments were corrected unequally. Correcting only some of them, or some with more care, biases their
 * comparison even where every single correction is right.
 *
 * The limits are a choice of this project, without a source.
 */
export function lopsidedWarnings(
  treatments: readonly TreatmentCorrections[],
  limits: LopsidedLimits = {},
): LopsidedWarning[] {
  const { reviewedFraction: mostUnevenReview = 0.25, netChange: largestMove = 0.02 } = limits;
  if (treatments.length < 2 || treatments.every(({ correctedPhotos }) => correctedPhotos === 0)) return [];
  const warnings: LopsidedWarning[] = [];
  const leftOut = treatments.filter(({ reviewedPhotos }) => reviewedPhotos === 0);
  if (leftOut.length > 0) {
    const seen = treatments.filter(({ reviewedPhotos }) => reviewedPhotos > 0);
    const names = (list: readonly TreatmentCorrections[]) => list.map(({ treatment }) => treatment);
    warnings.push({
      code: 'corrections-treatments-left-out',
      seen: names(seen),
      leftOut: names(leftOut),
    });
  } else {
    const review = extremes(treatments, ({ reviewedPhotos, photos }) => reviewedPhotos / photos);
    if (exceeds(review, mostUnevenReview)) warnings.push({ code: 'corrections-uneven-review', ...review });
  }
  treatments[0]!.meanNetChange.forEach((_, i) => {
    const move = extremes(treatments, ({ meanNetChange }) => meanNetChange[i]!);
    if (exceeds(move, largestMove)) {
      warnings.push({ code: 'corrections-move-comparison', label: i + 1, ...move });
    }
  });
  return warnings;
}

/** More than the limit by more than rounding. */
const exceeds = ({ most, least }: Extremes, limit: number) => most.fraction - least.fraction > limit + 1e-9;

interface Extremes {
  readonly most: OfTreatment;
  readonly least: OfTreatment;
}

function extremes(
  treatments: readonly TreatmentCorrections[],
  fractionOf: (treatment: TreatmentCorrections) => number,
): Extremes {
  const values = treatments.map((entry) => ({ treatment: entry.treatment, fraction: fractionOf(entry) }));
  return {
    most: values.reduce((a, b) => (b.fraction > a.fraction ? b : a)),
    least: values.reduce((a, b) => (b.fraction < a.fraction ? b : a)),
  };
}
