import type { FieldProblem } from '../../core/trial/fieldProblem.ts';
import type { Score } from '../../core/trial/rating.ts';
import type { TrialPlan } from '../../core/trial/trialPlan.ts';
import type { WeatherDay } from '../../core/trial/weather.ts';
import type { TrialContent } from '../../storage/trialStore.ts';

/** The trial of this project. */
export type TrialState =
  | { readonly state: 'none' }
  /** The stored plan is not one that this program can read; it stays as it is and can be saved as a file. */
  | { readonly state: 'unreadable'; readonly problems: readonly FieldProblem[]; readonly stored: string }
  | OpenTrial;

export interface OpenTrial extends TrialContent {
  readonly state: 'open';
  readonly id: string;
  readonly scores: readonly Score[];
  readonly weather: readonly WeatherDay[];
}

/** Who signs a change, by a typed name, and why. */
export interface Signature {
  readonly who: string;
  readonly why: string;
}

/** What became of an edit: refused ones changed nothing. */
export type EditResult =
  | { readonly ok: true }
  | { readonly ok: false; readonly problems: readonly FieldProblem[] };

/** Changes the plan, signed. */
export type EditPlan = (edit: (plan: TrialPlan) => TrialPlan) => Promise<EditResult>;
