import type { PhotoAdjustments } from '../../../core/cover/adjustPhotos.ts';
import type { TreatmentAdjustments } from '../../../core/cover/adjustTreatments.ts';
import type { CountedPhoto } from '../../../core/point-grid/countedPhoto.ts';
import type { TreatmentReferencePhotos } from '../../../core/point-grid/referencePhotos.ts';
import type { SamplingDesign } from '../../../core/point-grid/samplingDesign.ts';
import type { VarianceComponents } from '../../../core/statistics/planning.ts';
import type { CoverClass } from '../../../core/trial/coverClass.ts';
import type { GapRule } from '../../../core/trial/trial.ts';
import type { StoredPoints } from '../../../storage/pointStore.ts';

/** Photos without a rating date are a date of their own. */
export type RatingDate = string | null;

export interface PointsState extends StoredPoints {
  /** Null before there is a trial. */
  readonly trialId: string | null;
  readonly classes: readonly CoverClass[];
  readonly gapRule: GapRule;
  /** Treatment by plot key; empty without a trial. */
  readonly treatments: ReadonlyMap<string, string>;
  /** What a comparison was declared to use; null before that: treatments then go by codes. */
  readonly declared: DeclaredMethod | null;
}

export interface DeclaredMethod {
  /** Null where a rated variable was declared. */
  readonly method: string | null;
  readonly by: string;
  /** ISO 8601 instant. */
  readonly at: string;
}

/** A count as a person plans it. */
export interface CountDraft {
  readonly ratingDates: readonly RatingDate[];
  readonly design: SamplingDesign;
  readonly seed: number;
  /** Null: every photo of the dates. */
  readonly photosPerTreatment: number | null;
}

/** What a count would be, or has become, on one rating date. */
export interface DrawnDate {
  readonly ratingDate: RatingDate;
  /** One entry a treatment; a single one without a treatment's name where there is no trial. */
  readonly drawn: readonly TreatmentReferencePhotos[];
  /** Photos that have points from an earlier plan. */
  readonly already: number;
  /** Photos that cannot have points: not measured yet, or of no plot of the trial. */
  readonly unready: number;
  readonly unplaced: number;
}

/** How much frames of a plot differ, from the counts so far: of the class where they differ most. */
export interface FrameSpread extends Pick<VarianceComponents, 'frame' | 'point'> {
  readonly className: string;
  readonly framesPerPlot: number;
}

/** The figures of one rating date, by one observer. */
export interface DateFigures {
  readonly photos: readonly CountedPhoto[];
  readonly byPhoto: PhotoAdjustments | null;
  readonly byTreatment: TreatmentAdjustments | null;
}
