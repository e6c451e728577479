/** One plot on one rating date: the experimental unit. Subsamples (frames, photos) are averaged before. */
export interface PlotObservation {
  readonly plot: string;
  readonly treatment: string;
  /** Block of the plot; null where the design has none. */
  readonly block: string | null;
  /** Row and column of a Latin square; null elsewhere. */
  readonly row: string | null;
  readonly column: string | null;
  /** The rated value on its own scale, e.g. cover in percent. */
  readonly value: number;
  /** Baseline measured before any treatment, for a covariate; null or absent when not measured. */
  readonly covariate?: number | null;
  /** Level of each treatment factor, for factorial treatments. */
  readonly factors?: Readonly<Record<string, string>>;
}

/** How treatments were laid out on the ground. */
export const TRIAL_DESIGNS = ['randomized-complete-block', 'completely-randomized', 'latin-square'] as const;
export type TrialDesign = (typeof TRIAL_DESIGNS)[number];

/** Names in the order people expect: 2 before 10, independent of the machine's language. */
export function compareNames(a: string, b: string): number {
  return collator.compare(a, b) || (a < b ? -1 : a > b ? 1 : 0);
}

const collator = new Intl.Collator('en', { numeric: true });
