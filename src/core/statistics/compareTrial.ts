import { groupBy } from '../trial/groupBy.ts';
import { analyseTreatments } from './analyseTreatments.ts';
import { type LengthOfControlTable, lengthOfControl } from './lengthOfControl.ts';
import { type Note, note } from './note.ts';
import { analyseOverDates, type DatedObservation, type OverDatesAnalysis } from './overDates.ts';
import {
  type PercentControlBasis,
  type PercentControlTable,
  percentControlTable,
} from './percentControlTable.ts';
import { compareNames, type PlotObservation, type TrialDesign } from './plotObservation.ts';
import type { AnalysisOptions, TreatmentAnalysis } from './treatmentAnalysis.ts';

/** A plot's value of one class (or rated variable) on one rating date. */
export interface RatedObservation extends DatedObservation {
  /** Cover class; null where the table has none (another rated variable). */
  readonly classId: string | null;
}

/** What to compare and how. */
export interface ComparisonOptions extends Omit<AnalysisOptions, 'covariate'> {
  /** The day decided on beforehand, or `area` for the whole curve; null: not declared. @default null */
  readonly primary?: string | null;
  /** Which way is better. Percent control is only for what is better lower. @default null: not said, percent control shown */
  readonly better?: 'higher' | 'lower' | null;
  readonly percentControl?: {
    readonly basis?: PercentControlBasis;
    readonly interval?: 'fieller' | 'delta';
    readonly minimumPressure?: number;
  };
  /** Rating date before any treatment, for Henderson-Tilton. @default null */
  readonly baselineDate?: string | null;
  /** Rating date before any treatment, as covariate of later dates. @default null */
  readonly covariateDate?: string | null;
  /** Day of the first application. Without it no rating can be shown to be a baseline. @default null */
  readonly firstApplication?: string | null;
  readonly lengthOfControl?: { readonly threshold: number; readonly countedFrom: string } | null;
}

/** Comparison of one class on one date. */
export interface DateComparison {
  readonly ratingDate: string;
  readonly classId: string | null;
  /** `exploratory` unless this is the declared primary date (or the only one). */
  readonly role: 'primary' | 'exploratory';
  readonly analysis: TreatmentAnalysis;
  readonly percentControl: PercentControlTable | null;
  /** Analysis of the block values of percent control, the control left out; only block by block. */
  readonly percentControlAnalysis: TreatmentAnalysis | null;
  readonly notes: readonly Note[];
}

/** Comparison of one class over all its dates. */
export interface ClassOverDates {
  readonly classId: string | null;
  readonly role: 'primary' | 'exploratory';
  readonly overDates: OverDatesAnalysis;
  readonly lengthOfControl: LengthOfControlTable | null;
  readonly notes: readonly Note[];
}

export interface Comparison {
  readonly analyses: readonly DateComparison[];
  /** One for each class with 2 dates or more. */
  readonly overDates: readonly ClassOverDates[];
  readonly notes: readonly Note[];
}

/** The word for the area under the curve as declared primary result. */
export const PRIMARY_AREA = 'area';

/**
 * Why a rating date cannot serve as a baseline, or null when it can.
 *
 * A baseline must be free of treatment effects: adjusting for a value that treatments have already changed takes out part of
 * what is looked for.
 */
export function baselineProblem(date: string, firstApplication: string | null): Note | null {
  if (firstApplication === null) return note('covariate-timing-unknown', { date });
  return date > firstApplication ? note('covariate-after-treatment', { date, firstApplication }) : null;
}

/**
 * Compares treatments on each rating date and over dates, class by class.
 *
 * @param observations one for each plot, date and class
 * @throws RangeError when a baseline is not before the first application, or a design lacks its blocks
 */
export function compareTrial(
  observations: readonly RatedObservation[],
  options: ComparisonOptions,
): Comparison {
  for (const date of [options.baselineDate, options.covariateDate]) {
    const problem = date ? baselineProblem(date, options.firstApplication ?? null) : null;
    if (problem) throw new RangeError(`${problem.code}: ${date}`);
  }
  const classes = [...groupBy(observations, ({ classId }) => classId)].sort(([a], [b]) =>
    compareNames(a ?? '', b ?? ''),
  );
  const manyDates = datesOf(observations).length > 1;
  const analyses = classes.flatMap(([, own]) =>
    datesOf(own).map((ratingDate) => compareOnDate(own, ratingDate, options, manyDates)),
  );
  const overDates = classes.flatMap(([classId, own]) => {
    const dates = analyses.filter((analysis) => analysis.classId === classId);
    return compareOverDates(own, dates, options) ?? [];
  });
  return { analyses, overDates, notes: roleNotes(manyDates, options.primary ?? null) };
}

/** Rating dates of observations, in order. */
export function datesOf(observations: readonly { readonly ratingDate: string }[]): string[] {
  return [...new Set(observations.map(({ ratingDate }) => ratingDate))].sort();
}

/**
 * Compares treatments on one rating date.
 *
 * @param own all observations of one class
 * @param manyDates whether the trial has more than one rating date
 * @throws RangeError if there is no observation on the date
 */
export function compareOnDate(
  own: readonly RatedObservation[],
  ratingDate: string,
  options: ComparisonOptions,
  manyDates: boolean,
): DateComparison {
  const plots = own.filter((observation) => observation.ratingDate === ratingDate);
  if (plots.length === 0) throw new RangeError(`nothing was observed on ${ratingDate}`);
  const { primary = null } = options;
  const role = (primary === null && !manyDates) || primary === ratingDate ? 'primary' : 'exploratory';
  const { classId } = plots[0]!;
  return { ratingDate, classId, role, ...compareDate(plots, own, ratingDate, options) };
}

/**
 * Compares treatments over all dates of one class.
 *
 * @param analyses the comparisons of its dates, in order
 * @returns null with fewer than 2 dates
 */
export function compareOverDates(
  own: readonly RatedObservation[],
  analyses: readonly DateComparison[],
  options: ComparisonOptions,
): ClassOverDates | null {
  const overDates = analyseOverDates(own, options);
  if (!overDates) return null;
  const { classId } = own[0]!;
  const role = options.primary === PRIMARY_AREA ? 'primary' : 'exploratory';
  return { classId, role, overDates, ...controlLength(analyses, options) };
}

/** What is said of the roles of dates. */
export function roleNotes(manyDates: boolean, primary: string | null): Note[] {
  if (!manyDates) return [];
  return [primary === null ? note('no-primary-declared') : note('primary', { primary })];
}

function compareDate(
  plots: readonly RatedObservation[],
  own: readonly RatedObservation[],
  ratingDate: string,
  options: ComparisonOptions,
): Pick<DateComparison, 'analysis' | 'percentControl' | 'percentControlAnalysis' | 'notes'> {
  const { covariateDate = null, control = null } = options;
  const notes: Note[] = [];
  let rated: readonly PlotObservation[] = plots;
  let adjusted = false;
  if (covariateDate !== null && ratingDate > covariateDate) {
    const baseline = valuesOn(own, covariateDate);
    const withBaseline = plots.flatMap((plot) => {
      const covariate = baseline.get(plot.plot);
      return covariate === undefined ? [] : [{ ...plot, covariate }];
    });
    if (withBaseline.length === 0) notes.push(note('covariate-not-rated', { date: covariateDate }));
    else {
      const without = plots.filter(({ plot }) => !baseline.has(plot)).map(({ plot }) => plot);
      if (without.length > 0) notes.push(note('covariate-missing', { plots: without, date: covariateDate }));
      notes.push(note('covariate-used', { date: covariateDate }));
      rated = withBaseline;
      adjusted = true;
    }
  }
  const analysis = analyseTreatments(rated, { ...options, covariate: adjusted });
  if (control === null || options.better === 'higher') {
    return { analysis, percentControl: null, percentControlAnalysis: null, notes };
  }
  const percentControl = percentControlOn(plots, own, ratingDate, control, options);
  return { analysis, percentControl, percentControlAnalysis: analyseBlocks(percentControl, options), notes };
}

function percentControlOn(
  plots: readonly RatedObservation[],
  own: readonly RatedObservation[],
  ratingDate: string,
  control: string,
  options: ComparisonOptions,
): PercentControlTable {
  const { baselineDate = null, percentControl = {}, alpha = 0.05, design } = options;
  const baseline = baselineDate !== null && ratingDate > baselineDate ? valuesOn(own, baselineDate) : null;
  return percentControlTable(plots, {
    design,
    control,
    alpha,
    ...percentControl,
    ...(baseline ? { baseline } : {}),
  });
}

function valuesOn(own: readonly RatedObservation[], date: string): Map<string, number> {
  return new Map(own.filter(({ ratingDate }) => ratingDate === date).map(({ plot, value }) => [plot, value]));
}

/** The control has 0 percent control by definition and no variation: in the analysis it would only make the error too small. */
function analyseBlocks(table: PercentControlTable, options: ComparisonOptions): TreatmentAnalysis | null {
  if (table.blocks.length === 0) return null;
  const plots = table.blocks.map(({ block, treatment, percentControl }) => ({
    plot: `${treatment} / ${block}`,
    treatment,
    block,
    row: null,
    column: null,
    value: percentControl,
  }));
  const { alpha = 0.05 } = options;
  const analysis = analyseTreatments(plots, { design: 'randomized-complete-block', alpha });
  const kept = analysis.notes.filter(({ code }) => code !== 'control-not-named');
  return { ...analysis, notes: [note('control-left-out', { control: options.control ?? '' }), ...kept] };
}

function controlLength(
  analyses: readonly DateComparison[],
  options: ComparisonOptions,
): Pick<ClassOverDates, 'lengthOfControl' | 'notes'> {
  const { control = null, lengthOfControl: asked = null } = options;
  if (asked === null || control === null || options.better === 'higher')
    return { lengthOfControl: null, notes: [] };
  const dates = analyses.map(({ ratingDate, analysis }) => ({
    ratingDate,
    means: new Map(
      analysis.treatments.flatMap(({ treatment, mean }) => (mean === null ? [] : [[treatment, mean]])),
    ),
  }));
  return { lengthOfControl: lengthOfControl(dates, { control, ...asked }), notes: [] };
}

/** What a table without a stated design is taken for: blocks where every plot has one. */
export function designOf(observations: readonly PlotObservation[]): TrialDesign {
  return observations.every(({ block }) => block !== null)
    ? 'randomized-complete-block'
    : 'completely-randomized';
}
