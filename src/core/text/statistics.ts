import type { ObservationProblem } from '../exchange/observationProblem.ts';
import type { Note, NoteCode, NoteValues } from '../statistics/note.ts';
import { catalogue } from './catalogue.ts';

/** So many names are listed; the rest is counted. */
const LISTED = 8;

function names(value: NoteValues[string] | undefined): string {
  const all = Array.isArray(value) ? (value as readonly string[]) : [String(value)];
  const shown = all.slice(0, LISTED).join(', ');
  return all.length > LISTED ? `${shown} and ${all.length - LISTED} more` : shown;
}

function number(value: NoteValues[string] | undefined): string {
  return typeof value === 'number' ? formatSignificant(value) : names(value);
}

/** A number with 4 significant digits and no exponent where that is readable. */
export function formatSignificant(value: number): string {
  if (value === 0) return '0';
  const size = Math.abs(value);
  if (size < 1e-4 || size >= 1e7) return value.toExponential(2);
  return String(Number(value.toPrecision(4)));
}

/** A p value: 4 decimals, `<0.0001` below. */
export function formatP(p: number): string {
  return p < 0.0001 ? '<0.0001' : p.toFixed(4);
}

const p = (value: NoteValues[string] | undefined): string =>
  typeof value === 'number' ? formatP(value) : '';

const SENTENCES: Readonly<Record<NoteCode, (values: NoteValues) => string>> = {
  'one-treatment': (v) => `Only treatment ${names(v.treatment)} has values: there is nothing to compare.`,
  'no-error-degrees-of-freedom': () =>
    'No error degrees of freedom: as many means as plots. Means are shown; F, p, standard errors, LSD, HSD and letters cannot be computed.',
  'few-error-degrees-of-freedom': (v) =>
    `Only ${number(v.df)} error degrees of freedom; below ${number(v.wanted)} real differences are easily missed. More blocks or plots help.`,
  'single-replicate': () =>
    'Each treatment has a single plot: without replicates the variation between plots is unknown.',
  'zero-error-variance': () =>
    'Plots of a treatment do not vary at all (after blocks), so there is no error to test against: F, p, standard errors and letters are not given.',
  'treatment-without-variation': (v) =>
    `All plots of ${names(v.treatments)} have the same value (${names(v.values)}). One pooled error does not describe such a treatment: look at the means, or compare the others without it.`,
  'missing-plots': (v) =>
    `${number(v.count)} missing (treatment / block): ${names(v.cells)}. Means are least-squares means, as if every block had every treatment.`,
  'repeated-in-block': (v) =>
    `More than one plot in a block (treatment / block): ${names(v.cells)}. Each counts as a plot.`,
  'unequal-standard-errors': () =>
    'Pairs differ in their standard error, so there is no single LSD or HSD; each pair has its own.',
  'letters-withheld': (v) =>
    `The F test of treatments is not significant (p = ${p(v.p)}, alpha ${number(v.alpha)}), so no LSD letters are given.`,
  'not-estimable': (v) =>
    `Some means or differences cannot be told apart from blocks or dates in these data${Array.isArray(v.treatments) && v.treatments.length > 0 ? `: ${names(v.treatments)}` : ''}.`,
  'mean-not-positive': (v) => `The mean is ${number(v.mean)}, so a coefficient of variation has no meaning.`,
  'transformed-scale': (v) =>
    v.transform === 'arcsine-square-root'
      ? 'Analysed as arcsine square root, in degrees. Means and limits are transformed back; differences, LSD, HSD and p belong to degrees. Standard errors of transformed-back means are not given.'
      : 'Analysed as log10(x + 1). Means and limits are transformed back; differences, LSD, HSD and p belong to logarithms. Standard errors of transformed-back means are not given.',
  'contrast-without-plots': (v) =>
    `Contrast ${names(v.contrasts)} cannot be estimated here: a treatment in it has no plots.`,
  'control-not-named': () =>
    'No untreated control is named, so there is no percent control and no Dunnett test.',
  'control-missing': (v) =>
    `The control ${names(v.control)} has no plots here: no percent control, no Dunnett test.${Array.isArray(v.treatments) && v.treatments.length > 0 ? ` Treatments: ${names(v.treatments)}.` : ''}`,
  'pressure-too-low': (v) =>
    `The control ${names(v.control)} has a mean of ${number(v.mean)}, below the least pressure ${number(v.minimum)}: no percent control.`,
  'control-is-zero': (v) =>
    `The control ${names(v.control)} has nothing to control: percent control is not defined.`,
  'interval-unbounded': (v) =>
    `The control's mean is not clearly above 0, so percent control of ${names(v.treatments)} has no interval.`,
  'baseline-zero': (v) => `The baseline of ${names(v.treatments)} or of the control is 0: not defined.`,
  'blocks-left-out': (v) =>
    `Block ${names(v.blocks)} left out of percent control: the control is missing there, 0, or below the least pressure ${number(v.minimum)}.`,
  'percent-control-choice': (v) =>
    `Percent control ${v.formula === 'henderson-tilton' ? 'corrected for the baseline (Henderson-Tilton)' : '(100 (1 - treated / untreated))'}, ` +
    `${v.basis === 'blocks' ? 'within each block, then averaged' : 'from treatment means'}, not transformed; ${INTERVAL_NAMES[String(v.interval)] ?? ''}.`,
  'control-left-out': (v) =>
    `Analysis of percent control block by block, without the control ${names(v.control)}, which has 0 by definition.`,
  'dunnett-corrected-product': () =>
    'Missing plots make the correlations of differences from the control uneven; Dunnett p values are exact to about 0.0001.',
  'residuals-not-normal': (v) =>
    `Residuals are not normal (Shapiro-Wilk p = ${p(v.p)}). A transformation may help; the rank test does not need it.`,
  'variances-differ': (v) =>
    `Treatments vary unequally (Brown-Forsythe on residuals, p = ${p(v.p)}). A transformation may help.`,
  'outlying-plot': (v) =>
    `Plot ${names(v.plot)} lies far off (studentized residual ${number(v.studentized)}, p = ${p(v.p)} for the largest of all plots). Look at its photo; leave it out only for a reason that is written down.`,
  'non-additive': (v) =>
    `Blocks and treatments do not add (Tukey's test, p = ${p(v.p)}): treatments differ more in some blocks. A transformation may help.`,
  'no-primary-declared': () =>
    'Several dates and none declared primary: all are exploratory. At alpha 0.05 one date in twenty looks significant by chance; declare the date (or the area under the curve) that decides before looking.',
  primary: (v) =>
    v.primary === 'area'
      ? 'The area under the curve is declared primary; single dates are exploratory.'
      : `${names(v.primary)} is declared primary; other dates are exploratory.`,
  'incomplete-plots': (v) =>
    `Plots not rated on all ${number(v.dates)} dates: ${names(v.plots)}. A split plot in time needs them all.`,
  'plot-variance-at-zero': () =>
    'Plots vary no more between than within themselves (plot variance estimated as 0): ratings then count as independent, and the tests are more optimistic than those of a split plot.',
  'empty-cells': (v) =>
    `No plot at all for treatment / date ${names(v.cells)}: treatments cannot be compared over all dates. Leave the date or the treatment out.`,
  'interaction-too-large': (v) =>
    `Treatments by dates have ${number(v.df)} degrees of freedom; above ${number(v.limit)} they are not tested with missing ratings.`,
  'mixed-model-used': () =>
    'Mixed model with random plots (REML), tests after Kenward and Roger; ratings of one plot are taken as equally correlated.',
  'not-converged': () => 'The estimation of variances did not settle; treat the tests over dates as rough.',
  'area-bridged': (v) =>
    `A date was missed between others on plot ${names(v.plots)}: the area takes a straight line there, as between any two ratings.`,
  'area-missing-plots': (v) =>
    `The area under the curve uses the ${number(v.kept)} plots rated on the first and the last date; left out: ${names(v.plots)}.`,
  'covariate-used': (v) => `Adjusted for the baseline of ${names(v.date)} (covariate).`,
  'covariate-not-rated': (v) =>
    `Nothing of this class was rated on ${names(v.date)}: not adjusted for a baseline.`,
  'covariate-missing': (v) => `No baseline of ${names(v.date)} for plot ${names(v.plots)}: left out here.`,
  'covariate-after-treatment': (v) =>
    `The ratings of ${names(v.date)} cannot be a baseline: treatments began on ${names(v.firstApplication)}. Adjusting for them would take out part of the effect. Name an earlier rating date.`,
  'covariate-timing-unknown': (v) =>
    `Whether ${names(v.date)} was before any treatment is not known. Give the first application: --first-application YYYY-MM-DD, or a trial file with its applications.`,
  'threshold-not-reached': (v) =>
    `The control ${names(v.control)} never passed ${number(v.threshold)} (highest mean ${number(v.highest)}), so length of control is not shown.`,
  'crossed-again': (v) =>
    `${names(v.treatments)} came back to the threshold or below after passing it; the first passing counts.`,
  'subsamples-averaged': (v) =>
    v.fewest === v.most
      ? `${number(v.most)} rows of a plot, date and class are subsamples: averaged, not counted as replicates.`
      : `Rows of a plot, date and class are subsamples: averaged, not counted as replicates. Their number differs, from ${number(v.fewest)} to ${number(v.most)}; check that no plot was entered twice.`,
  'beside-left-out': (v) =>
    `${number(v.count)} values of treatment ${names(v.treatments)}, the untreated control beside the trial, lie outside its randomisation and take no part in the analysis.`,
  'empty-values': (v) => `${number(v.count)} rows have no value; those plots count as not rated, never as 0.`,
  'flagged-rows': (v) =>
    `${number(v.count)} rows carry doubts of the measurement (${names(v.flags)}) and are compared like the others: look at those photos first.`,
  'method-used': (v) => `Figures made by method: ${names(v.method)}.`,
  'stratum-without-points': (v) =>
    `No points were judged where the mask says ${names(v.classes)}, though it covers ground: adjusted cover is unknown. Judge some points there.`,
  'stratum-one-point': (v) =>
    `Only one point where the mask says ${names(v.classes)}: no standard error can be given.`,
  'no-errors-seen': (v) =>
    `Every point where the mask says ${names(v.classes)} agreed; its error is computed as 0, which few points do not prove.`,
  'class-never-observed': (v) => `${names(v.classes)} was never observed: no producer's accuracy.`,
  'kappa-undefined': () => 'One class only: chance alone agrees completely, so kappa is not defined.',
  'interval-cut': (v) =>
    `The interval of ${names(v.classes)} is cut at 0 or 100 %; with so few points it is rough.`,
};

const INTERVAL_NAMES: Readonly<Record<string, string>> = {
  fieller: 'interval after Fieller',
  delta: 'interval by the delta method',
  'delta-log': 'interval by the delta method on the logarithm of the ratio',
  't-over-blocks': 'interval from the spread over blocks (t)',
};

/** A note as a sentence. */
export const noteText = catalogue('noteText', ({ code, values }: Note): string => {
  return SENTENCES[code](values);
});

/** What is wrong with a table of observations, where, and the way out; without the file's name. */
export const observationProblemText = catalogue(
  'observationProblemText',
  (problem: ObservationProblem): string => {
    switch (problem.code) {
      case 'empty-table':
        return 'The file is empty. A table has column names in its first row: plot, treatment, rating_date, class, cover_percent.';
      case 'no-rows':
        return 'The table has no value to compare: no row below the column names has one.';
      case 'missing-column':
        return `Row 1: there is no column "${problem.column}"; found: ${problem.found.join(', ') || 'none'}. Name the columns in the first row.`;
      case 'column-twice':
        return `Row 1: the column "${problem.column}" is there twice. Remove or rename one.`;
      case 'broken-quotes':
        return `Row ${problem.row}: a quotation mark is opened and not closed. Save the table as CSV again.`;
      case 'empty-cell':
        return `Row ${problem.row}, column "${problem.column}": the cell is empty. Fill it, or take the row out.`;
      case 'not-a-number':
        return `Row ${problem.row}, column "${problem.column}": "${problem.met}" is not a number. Allowed: a number with a decimal point, e.g. 12.5; nothing or NA where the plot was not rated.`;
      case 'out-of-scale':
        return `Row ${problem.row}, column "${problem.column}": ${problem.met} is outside ${problem.least} to ${problem.most}. Correct the value, or leave the cell empty if it is not known.`;
      case 'not-a-day':
        return `Row ${problem.row}, column "${problem.column}": "${problem.met}" is not a day of the calendar as YYYY-MM-DD.`;
      case 'plot-differs':
        return (
          `Row ${problem.row}, column "${problem.column}": plot ${problem.plot} has "${problem.met}" here and "${problem.before}" ` +
          `${problem.beforeRow === null ? 'in the trial file' : `in row ${problem.beforeRow}`}. ` +
          'A plot has one treatment, block and place; if two plots share a name, give each its own.'
        );
      case 'row-twice':
        return `Row ${problem.row} repeats row ${problem.beforeRow}: plot ${problem.plot}, ${problem.what}, the same date, class and method. Take one out.`;
      case 'unknown-class':
        return (
          `${problem.row === null ? '--class' : `Row ${problem.row}, column "class"`}: there is no class "${problem.met}". ` +
          `Known: ${problem.known.join(', ') || 'none'}.`
        );
      case 'unknown-plot':
        return `Row ${problem.row}, column "plot": "${problem.met}" is not a plot of the trial file. Correct the name, or add the plot there.`;
      case 'block-missing':
        return `Column "block": plot ${problem.plot} has no block while others have one. Fill it, or leave the column out for a completely randomised design.`;
      case 'several-methods':
        return `The figures were made in several ways: ${problem.methods.join(', ')}. They are not compared with one another: choose one with --method.`;
      case 'unknown-method':
        return `--method: no figures were made by "${problem.met}". In the table: ${problem.known.join(', ')}.`;
    }
  },
);
