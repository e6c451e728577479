/**
 * Something a reader of a result has to know: why a value is missing, or what the value rests on.
 *
 * The core gives a code and the values met; the sentence is in `core/text/statistics.ts`.
 */
export interface Note {
  readonly code: NoteCode;
  readonly values: NoteValues;
}

export type NoteValues = Readonly<Record<string, string | number | readonly string[]>>;

/** All codes; the text catalogue has a sentence for each. */
export type NoteCode =
  | 'one-treatment'
  | 'no-error-degrees-of-freedom'
  | 'few-error-degrees-of-freedom'
  | 'single-replicate'
  | 'zero-error-variance'
  | 'treatment-without-variation'
  | 'missing-plots'
  | 'repeated-in-block'
  | 'unequal-standard-errors'
  | 'letters-withheld'
  | 'not-estimable'
  | 'mean-not-positive'
  | 'transformed-scale'
  | 'contrast-without-plots'
  | 'control-not-named'
  | 'control-missing'
  | 'pressure-too-low'
  | 'control-is-zero'
  | 'interval-unbounded'
  | 'baseline-zero'
  | 'blocks-left-out'
  | 'percent-control-choice'
  | 'control-left-out'
  | 'dunnett-corrected-product'
  | 'residuals-not-normal'
  | 'variances-differ'
  | 'outlying-plot'
  | 'non-additive'
  | 'no-primary-declared'
  | 'primary'
  | 'incomplete-plots'
  | 'plot-variance-at-zero'
  | 'empty-cells'
  | 'interaction-too-large'
  | 'mixed-model-used'
  | 'not-converged'
  | 'area-bridged'
  | 'area-missing-plots'
  | 'covariate-used'
  | 'covariate-not-rated'
  | 'covariate-missing'
  | 'covariate-after-treatment'
  | 'covariate-timing-unknown'
  | 'threshold-not-reached'
  | 'crossed-again'
  | 'subsamples-averaged'
  | 'empty-values'
  | 'beside-left-out'
  | 'flagged-rows'
  | 'method-used'
  | 'stratum-without-points'
  | 'stratum-one-point'
  | 'no-errors-seen'
  | 'class-never-observed'
  | 'kappa-undefined'
  | 'interval-cut';

/** Makes a note. */
export function note(code: NoteCode, values: NoteValues = {}): Note {
  return { code, values };
}
