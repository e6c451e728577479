import type { Interval } from '../statistics/proportions/proportionInterval.ts';

/** Cover of one class, adjusted for the errors of the mask. */
export interface AdjustedClass {
  /** 0..1 */
  readonly coverFraction: number;
  readonly standardError: number;
  readonly interval: Interval;
}

/** Adjusted cover of all classes, with the way it was found. */
export interface AdjustedEstimate {
  readonly ok: true;
  /** What cover and interval are about: the ground in one frame, or the mean of a treatment's photos. */
  readonly target: 'frame' | 'treatment-mean';
  /**
   * `post-stratified`: the mask's shares times P(observed | mask class) of the same ground.
   * `inverted-error-rates`: the mask's shares solved for the cover through P(mask class | observed class),
   * which may come from other ground.
   */
  readonly estimator: 'post-stratified' | 'inverted-error-rates';
  /** Intervals are matched beta intervals; their variance takes points, or whole photos, as independent. */
  readonly variance: 'independent-points' | 'photos-as-clusters';
  readonly confidence: number;
  /** Points and photos that the error rates rest on. */
  readonly points: number;
  readonly photos: number;
  /** In class order. */
  readonly classes: readonly AdjustedClass[];
  /** Mask classes too small to have a stratum of their own: counted with the largest one. */
  readonly collapsed: readonly string[];
  /** Whether the solved covers fell outside 0..1 and were cut. */
  readonly isCut: boolean;
}

/** Why a cover is not adjusted. The mask's own figure and the points' own figure still stand. */
export type AdjustmentRefusal =
  | { readonly ok: false; readonly code: 'no-points' }
  /** Mask classes with too few points in them to say how often the mask is right there. */
  | {
      readonly ok: false;
      readonly code: 'stratum-too-few-points';
      readonly classes: readonly string[];
      readonly fewest: number;
    }
  /** Photos, not points, are independent: two at the least are needed. */
  | { readonly ok: false; readonly code: 'too-few-photos'; readonly photos: number; readonly fewest: number }
  /** No point was observed as these, so nothing is known of how the mask takes them. */
  | { readonly ok: false; readonly code: 'class-never-observed'; readonly classes: readonly string[] }
  /** The mask never gave these classes at any point. */
  | { readonly ok: false; readonly code: 'class-never-mapped'; readonly classes: readonly string[] }
  /** The mask gives other ground these classes at least as often as ground that is of them. */
  | { readonly ok: false; readonly code: 'mask-does-not-separate'; readonly classes: readonly string[] };

export type Adjustment = AdjustedEstimate | AdjustmentRefusal;

/** Error matrix of one photo with reference points. */
export interface ReferencePhoto {
  readonly photo: string;
  readonly treatment: string;
  /** Rows class on the mask, columns class observed. */
  readonly counts: readonly (readonly number[])[];
}

export const sumOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);
