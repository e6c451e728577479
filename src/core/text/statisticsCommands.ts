import type { ReferenceAllowed, ReferenceCountsProblem } from '../exchange/referenceCounts.ts';
import type { ContrastProblem } from '../statistics/contrasts.ts';
import { catalogue } from './catalogue.ts';

/** What has to be said wherever results by treatment are shown. */
export const RESULTS_CAUTION = catalogue(
  'RESULTS_CAUTION',
  'The product label and local regulations decide what may be applied; applications belong to people licensed or certified where the law requires it, with the protective equipment the label names. ' +
    'Results hold for this site, season, turf and weed population; a cover figure is an estimate.',
);

/** What the command `compare` says. */
export const compareWords = {
  summary: 'compare treatments',
  description:
    'Compares treatments on each rating date, class by class, and over dates: analysis of variance, means with LSD, Tukey and ' +
    'Dunnett, percent control. Reads any tidy CSV with the columns plot, treatment, rating_date, class and cover_percent; with block ' +
    'the design is randomized complete blocks, without completely randomized. Rows of one plot, date and class are ' +
    'subsamples and averaged. A readable table goes to standard output. Exit code 0: done; 2: arguments or files that cannot be used.',
  table: 'cover table (CSV) or any tidy table, one value a row',
  trial: 'trial file (JSON) with plots, untreated control, applications; fills what the table leaves empty',
  class: 'only this class',
  control: 'untreated control (default: that of the trial file)',
  design: 'how treatments were laid out (default: from the table)',
  transform: 'transform values before the analysis',
  alpha: 'level of significance',
  json: 'write the comparison as JSON to this file ("-": to standard output instead of the table)',
  method: 'only figures made this way; needed where the table holds several',
  value: 'column with the rated value',
  unit: 'unit of the value, to be printed with it',
  scale:
    'least and largest value of the scale, e.g. 1..9; values outside are refused (default: 0..100 for cover_percent)',
  better: 'which way is better; percent control is only given where lower is, or where this is not said',
  primary:
    'the rating date, or "area" for the area under the curve, declared beforehand to decide; the others are exploratory',
  factors: 'columns with the levels of treatment factors, e.g. rate,timing: adds the factorial table',
  contrast:
    'planned contrast, e.g. "products against control: A=0.5, B=0.5, C=-1"; may be given several times',
  percentControl: 'percent control from treatment means or block by block',
  interval: 'interval of percent control from means',
  minimumPressure: 'no percent control where the control is below this',
  baseline: 'rating date before any treatment, for percent control after Henderson and Tilton',
  covariate: 'rating date before any treatment, as covariate of later dates',
  firstApplication: 'day treatments began (default: from the trial file)',
  controlThreshold: 'value above which control counts as lost: adds length of control',
  countFrom: 'day length of control is counted from (default: sowing in the trial file)',

  cannotRead: (path: string, reason: string) => `"${path}" cannot be read: ${reason}`,
  cannotWrite: (path: string, reason: string) => `"${path}" cannot be written: ${reason}`,
  tooLarge: (path: string) =>
    `"${path}" is too large to be read as one text. Split it by class or rating date.`,
  tableProblems: (path: string, lines: readonly string[], count: number) =>
    [
      `"${path}" cannot be compared:`,
      ...lines.map((line) => `  ${line}`),
      ...(count > lines.length ? [`  … and ${count - lines.length} more.`] : []),
    ].join('\n'),
  badTrial: (path: string, field: string, detail: string) =>
    `--trial "${path}": ${field === '' ? 'not valid JSON' : `"${field}"`}: ${detail}. Correct the trial file.`,
  badPlan: (path: string, problem: string) => `--trial "${path}": ${problem}`,
  badOption: (option: string, met: string, allowed: string) => `${option} is ${allowed}, got "${met}".`,
  allowed: {
    alpha: 'a number above 0 and below 1',
    number: 'a number',
    pressure: 'a number, 0 or more',
    day: 'a day of the calendar, YYYY-MM-DD',
    scale: 'two numbers LEAST..MOST, e.g. 1..9',
    contrast: '"name: TREATMENT=WEIGHT, …" with weights that add to 0',
  },
  noControl: (met: string, known: readonly string[]) =>
    `--control: there is no treatment "${met}". In the table: ${known.join(', ')}.`,
  noDate: (option: string, met: string, known: readonly string[]) =>
    `${option}: nothing was rated on ${met}. Rating dates: ${known.join(', ')}.`,
  needsColumns: (design: string, columns: readonly string[]) =>
    `--design ${design} needs ${columns.join(' and ')} for every plot. Add the columns, or name a trial file with --trial.`,
  arcsineNeedsPercent: (least: number, most: number) =>
    `--transform arcsine-square-root is for percentages from 0 to 100; the values run from ${least} to ${most}.`,
  logNeedsPositive: (least: number) => `--transform log takes values above -1; the least is ${least}.`,
  blocksNeeded: '--percent-control blocks needs randomized complete blocks.',
  noCountFrom:
    '--control-threshold: length of control is counted from sowing or an application. Give --count-from YYYY-MM-DD, or a trial file with "sowingDate".',
  thresholdNeedsControl: '--control-threshold needs the untreated control: --control TREATMENT.',
  baselineNeedsControl: '--baseline needs the untreated control: --control TREATMENT.',
  contrastProblem: (problem: ContrastProblem, treatments: readonly string[]) => {
    switch (problem.code) {
      case 'unknown-treatment':
        return `--contrast "${problem.name}" names treatment "${problem.treatment}". In the table: ${treatments.join(', ')}.`;
      case 'no-weights':
        return `--contrast "${problem.name}" has no weight other than 0.`;
      case 'weights-do-not-cancel':
        return `--contrast "${problem.name}": weights add to ${problem.sum}; they must add to 0, e.g. A=0.5, B=0.5, C=-1.`;
    }
  },
};

/** Words of the table that `compare` prints. */
export const comparisonWords = {
  head: (what: string, date: string, role: 'primary' | 'exploratory') => `${what}, ${date} (${role})`,
  design: (design: string, treatments: number, plots: number, transform: string) =>
    `${DESIGNS[design] ?? design}, ${treatments} treatments, ${plots} plots${transform === 'none' ? '' : `, ${transform}`}`,
  source: 'source',
  df: 'df',
  sumOfSquares: 'sum of squares',
  meanSquare: 'mean square',
  f: 'F',
  p: 'p',
  greenhouseGeisser: 'p (Greenhouse-Geisser)',
  treatment: 'treatment',
  n: 'n',
  mean: 'mean',
  standardError: 'SE',
  limits: (confidence: string) => `${confidence} % limits`,
  transformed: 'transformed',
  lettersLsd: 'LSD',
  lettersHsd: 'Tukey',
  difference: 'vs control',
  dunnett: 'Dunnett p',
  percentControl: '% control',
  percentControlLimits: 'limits',
  levels: 'factor / level',
  contrast: 'contrast',
  estimate: 'estimate',
  errorLine: (values: { cv: string; sed: string; lsd: string; hsd: string; alpha: string }) =>
    `CV ${values.cv}   SE of a difference ${values.sed}   LSD(${values.alpha}) ${values.lsd}   HSD(${values.alpha}) ${values.hsd}`,
  rank: (method: string, chiSquare: string, df: number, p: string) =>
    `${method === 'friedman' ? 'Friedman' : 'Kruskal-Wallis'} rank test: chi-square ${chiSquare}, ${df} df, p ${p}`,
  sameLetter: 'Means with a common letter do not differ significantly (a: highest).',
  adjustedTerms: 'Each term adjusted for the others (type II)',
  overDates: (what: string, count: number) => `${what}, all ${count} dates`,
  betweenPlots: 'between plots',
  withinPlots: 'within plots',
  mixedModel: 'mixed model, plots random',
  numeratorDf: 'df',
  denominatorDf: 'error df',
  epsilon: (value: string) => `Greenhouse-Geisser epsilon ${value}`,
  area: (what: string, days: number, role: string) =>
    `${what}, area under the curve over its ${days} days: mean over time (${role})`,
  percentControlAnalysis: (what: string, date: string) => `percent control block by block: ${what}, ${date}`,
  length: (threshold: string, from: string) =>
    `Length of control: days from ${from} until the mean passed ${threshold}`,
  held: 'held until',
  passed: 'passed on',
  days: 'days',
  between: (from: number | null, to: number | null) =>
    to === null ? `${from} or more` : from === null ? `${to} or fewer` : `between ${from} and ${to}`,
  none: '-',
  notesTitle: 'Notes',
};

const DESIGNS: Readonly<Record<string, string>> = {
  'randomized-complete-block': 'randomized complete blocks',
  'completely-randomized': 'completely randomized',
  'latin-square': 'Latin square',
};

/** What the command `adjust` says. */
export const adjustWords = {
  summary: 'adjust cover for the errors of the mask',
  description:
    'Adjusts cover for the errors of the mask, from points at which an observer said what is there: stratified estimate with ' +
    "standard error and 95 % interval, user's, producer's and overall accuracy, kappa. A readable table goes to standard output. " +
    'Exit code 0: done; 2: arguments or files that cannot be used.',
  file: 'counts by mask class (rows) and observed class (columns), with the share of the mask (JSON, see docs/files.md)',
  json: 'write the result as JSON to this file ("-": to standard output instead of the table)',
  cannotUse: (path: string, reason: string) => `"${path}" cannot be used: ${reason}`,
  class: 'class',
  mapped: 'mask %',
  adjusted: 'adjusted %',
  standardError: 'SE',
  limits: '95 % limits',
  users: "user's %",
  producers: "producer's %",
  overall: (accuracy: string, error: string) => `overall accuracy ${accuracy} %, SE ${error}`,
  kappa: (value: string, error: string) => `kappa ${value}, SE ${error}`,
};

const ALLOWED: Readonly<Record<ReferenceAllowed, string>> = {
  version: 'a whole number from 1',
  classes: 'a list of 2 or more different names',
  share: 'a list of numbers from 0 to 1, one for each class',
  count: 'rows of whole numbers from 0, a row and a column for each class',
};

/** Why a reference-counts file cannot be used, and the way out. */
export function referenceCountsProblemText(problem: ReferenceCountsProblem): string {
  switch (problem.code) {
    case 'not-json':
      return `This is not valid JSON: ${problem.detail}. Correct it, or export the counts again.`;
    case 'other-type':
      return `"type" is ${problem.met}; a file of reference counts says "reference-counts".`;
    case 'newer-version':
      return `The file has version ${problem.met}; this program reads up to ${problem.newest}. Use a newer version of the program.`;
    case 'bad-field':
      return `"${problem.field}" is ${problem.met}; allowed: ${ALLOWED[problem.allowed]}.`;
    case 'wrong-size':
      return `"${problem.field}" has ${problem.met} entries, there are ${problem.wanted} classes. Give one for each class, in their order.`;
    case 'shares-do-not-add':
      return `"mappedFraction" adds to ${problem.sum}, not to 1. Give shares, not percentages, of the measured area.`;
    case 'no-points':
      return 'All counts are 0: no point was judged. Judge some points first.';
  }
}
