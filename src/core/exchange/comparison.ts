import type { ClassOverDates, Comparison, DateComparison } from '../statistics/compareTrial.ts';
import type { Note } from '../statistics/note.ts';
import type { PercentControlTable } from '../statistics/percentControlTable.ts';
import type { TreatmentAnalysis } from '../statistics/treatmentAnalysis.ts';
import { finiteJson } from './finiteJson.ts';

export const COMPARISON_VERSION = 1;

/** The rated variable behind a comparison. */
export interface RatedVariableHead {
  /** Column it came from, e.g. `cover_percent`. */
  readonly name: string;
  readonly unit: string | null;
  readonly scale: readonly [least: number, most: number] | null;
  readonly better: 'higher' | 'lower' | null;
}

/**
 * A comparison as JSON (`comparison`, version 1; docs/files.md and docs/statistics.md describe it).
 *
 * @param textOf the sentence of a note; codes stand beside the sentences for programs
 * @param caution what has to be said wherever results by treatment are shown
 * @throws RangeError if a number is not finite
 */
export function writeComparison(
  comparison: Comparison,
  variable: RatedVariableHead,
  tableNotes: readonly Note[],
  textOf: (note: Note) => string,
  caution: string,
): string {
  const notes = (list: readonly Note[]) => ({
    notes: list.map(textOf),
    noteCodes: list.map(({ code }) => code),
  });
  return finiteJson({
    type: 'comparison',
    version: COMPARISON_VERSION,
    variable,
    analyses: comparison.analyses.map((date) => dateDocument(date, notes)),
    overDates: comparison.overDates.map((own) => overDatesDocument(own, notes)),
    ...notes([...tableNotes, ...comparison.notes]),
    caution,
  });
}

type NotesOf = (list: readonly Note[]) => {
  readonly notes: readonly string[];
  readonly noteCodes: readonly string[];
};

function dateDocument(date: DateComparison, notes: NotesOf): object {
  const { ratingDate, classId, role, analysis, percentControl, percentControlAnalysis } = date;
  const all = [...date.notes, ...analysis.notes, ...(percentControl?.notes ?? [])];
  // the same control may be missing for Dunnett's test and for percent control
  const distinct = all.filter((own, index) => all.findIndex(({ code }) => code === own.code) === index);
  return {
    ratingDate,
    class: classId,
    role,
    ...analysisDocument(analysis, percentControl),
    percentControl: percentControl && {
      basis: percentControl.basis,
      formula: percentControl.formula,
      interval: percentControl.interval,
      minimumPressure: percentControl.minimumPressure,
      blocks: percentControl.blocks,
    },
    percentControlAnalysis: percentControlAnalysis && {
      ...analysisDocument(percentControlAnalysis, null),
      ...notes(percentControlAnalysis.notes),
    },
    ...notes(distinct),
  };
}

function analysisDocument(analysis: TreatmentAnalysis, percentControl: PercentControlTable | null): object {
  const { transform, design, alpha, treatments, pairs, contrasts, notes: _, errorDf, ...table } = analysis;
  const { factorial, rankTest, residualChecks, ...error } = table;
  const controlOf = new Map(percentControl?.treatments.map((own) => [own.treatment, own]));
  return {
    transform,
    design,
    alpha,
    scaleOfDifferences: transform === 'none' ? 'response' : 'transformed',
    ...error,
    errorDegreesOfFreedom: errorDf,
    treatments: treatments.map((treatment) => {
      const own = controlOf.get(treatment.treatment);
      return {
        ...treatment,
        percentControl: own?.percentControl ?? null,
        percentControlLow: own?.low ?? null,
        percentControlHigh: own?.high ?? null,
      };
    }),
    pairs,
    contrasts,
    factorial,
    rankTest,
    residualChecks,
  };
}

function overDatesDocument(
  { classId, role, overDates, lengthOfControl, notes: own }: ClassOverDates,
  notes: NotesOf,
): object {
  const { area, splitPlot, mixedModel, dates } = overDates;
  return {
    class: classId,
    dates,
    splitPlot,
    mixedModel,
    area: area && {
      role,
      unit: area.unit,
      spanDays: area.spanDays,
      plots: area.plots,
      ...analysisDocument(area.analysis, null),
      ...notes(area.analysis.notes),
    },
    lengthOfControl: lengthOfControl && {
      threshold: lengthOfControl.threshold,
      countedFrom: lengthOfControl.countedFrom,
      treatments: lengthOfControl.treatments,
      ...notes(lengthOfControl.notes),
    },
    ...notes([...own, ...overDates.notes]),
  };
}
