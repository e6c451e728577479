import type { NamedModel } from '../core/cover/measurePhoto.ts';

/** What the photos of one rating date are measured with. */
export type ModelChoice =
  | { readonly kind: 'start-model' }
  | { readonly kind: 'taught'; readonly taught: NamedModel }
  /** They cannot be measured, and why. */
  | { readonly kind: 'refused'; readonly reason: string };

/** Which model a run uses for which rating date; photos without a date form one group, null. */
export interface DateModels {
  /** Whether the date matters at all: if not, nobody need look for it inside the photo. */
  readonly byDate: boolean;
  choose(ratingDate: string | null): ModelChoice;
}

export const oneModelForAll = (choice: ModelChoice): DateModels => ({ byDate: false, choose: () => choice });

/** @param otherwise for dates on which nothing was painted */
export const modelsByDate = (
  choices: ReadonlyMap<string | null, ModelChoice>,
  otherwise: ModelChoice,
): DateModels => ({ byDate: true, choose: (date) => choices.get(date) ?? otherwise });
