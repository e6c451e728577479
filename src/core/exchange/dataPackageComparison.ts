import {
  type Comparison,
  type ComparisonOptions,
  compareTrial,
  designOf,
  type RatedObservation,
} from '../statistics/compareTrial.ts';
import { compareNames } from '../statistics/plotObservation.ts';
import type { Transform } from '../statistics/transforms.ts';
import { type ComparedPhoto, trialObservations } from '../statistics/trialObservations.ts';
import { exclusionOf } from '../trial/deviation.ts';
import type { TrialPlan } from '../trial/trialPlan.ts';
import type { CoverMethod } from './coverTable.ts';
import { writeCsv } from './csv.ts';
import type { PackageTable } from './dataPackage.ts';
import { comparisonTrialOf } from './trialPlanComparison.ts';

/** How the tables compare treatments. */
export interface PackagedAnalysis {
  readonly method: CoverMethod;
  readonly transform: Transform;
  readonly alpha: number;
}

interface PackagedObservation extends RatedObservation {
  readonly subsamples: number;
  /** Null where it takes part. */
  readonly excluded: string | null;
}

/** A comparison and the plot values it rests on. */
export interface PackagedComparison {
  readonly analysis: PackagedAnalysis;
  readonly observations: readonly PackagedObservation[];
  readonly comparison: Comparison;
}

/**
 * Compares every class of a trial on every date by one method, excluded values left out.
 *
 * @returns null where fewer than two treatments have values
 */
export function packagedComparison(
  plan: TrialPlan,
  photos: readonly ComparedPhoto[],
  analysis: PackagedAnalysis,
): PackagedComparison | null {
  const { method, transform, alpha } = analysis;
  const observations = plan.trial.classes.flatMap(({ id: classId }) => {
    const found = trialObservations({ plan, photos, scores: [] }, { kind: 'class', classId }, method);
    return found.observations.map((observation): PackagedObservation => {
      const { plot, ratingDate } = observation;
      const exclusion = exclusionOf({ plot, ratingDate, variable: classId }, plan.exclusions);
      const subsamples = photos.filter(
        (photo) =>
          photo.ratingDate === ratingDate &&
          photo.plot?.toUpperCase() === plot.toUpperCase() &&
          photo.figures[method],
      ).length;
      return { ...observation, subsamples, excluded: exclusion ? exclusion.reason : null };
    });
  });
  const used = observations.filter(({ excluded }) => excluded === null);
  if (new Set(used.map(({ treatment }) => treatment)).size < 2) return null;
  const { design, control, firstApplication } = comparisonTrialOf(plan);
  const options: ComparisonOptions = {
    design: design ?? designOf(used),
    transform,
    alpha,
    control: used.some(({ treatment }) => treatment === control) ? control : null,
    firstApplication,
  };
  return { analysis, observations, comparison: compareTrial(used, options) };
}

const OBSERVATION_COLUMNS = [
  'rating_date',
  'class',
  'plot',
  'block',
  'row',
  'column',
  'treatment',
  'value',
  'subsamples',
  'excluded',
];

const COMPARISON_COLUMNS = [
  'rating_date',
  'class',
  'method',
  'design',
  'transform',
  'alpha',
  'treatment',
  'n',
  'mean',
  'standard_error',
  'low',
  'high',
  'letters_lsd',
  'letters_hsd',
  'percent_control',
  'f',
  'p',
  'error_df',
  'mean_square_error',
  'least_significant_difference',
  'honestly_significant_difference',
];

type Cell = string | number | null | undefined;

/** The tables `observations` and `comparison`. Numbers are written in full, so that others can be held against them. */
export function comparisonTables({ analysis, observations, comparison }: PackagedComparison): PackageTable[] {
  const text = (cells: readonly Cell[]) => cells.map(cellText);
  const sorted = [...observations].sort(
    (a, b) =>
      compareNames(a.ratingDate, b.ratingDate) ||
      compareNames(a.classId ?? '', b.classId ?? '') ||
      compareNames(a.plot, b.plot),
  );
  const observationRows = sorted.map(
    ({ ratingDate, classId, plot, block, row, column, treatment, value, subsamples, excluded }) =>
      text([ratingDate, classId, plot, block, row, column, treatment, value, subsamples, excluded]),
  );
  const comparisonRows = comparison.analyses.flatMap(
    ({ ratingDate, classId, analysis: own, percentControl }) => {
      const anova = own.anova.find(({ source }) => source === 'treatment');
      const controlOf = new Map(percentControl?.treatments.map((one) => [one.treatment, one.percentControl]));
      return own.treatments.map((treatment) =>
        text([
          ratingDate,
          classId,
          analysis.method,
          own.design,
          own.transform,
          own.alpha,
          treatment.treatment,
          treatment.n,
          treatment.mean,
          treatment.standardError,
          treatment.low,
          treatment.high,
          treatment.lettersLsd,
          treatment.lettersHsd,
          controlOf.get(treatment.treatment),
          anova?.f,
          anova?.p,
          own.errorDf,
          own.meanSquareError,
          own.leastSignificantDifference.value,
          own.honestlySignificantDifference.value,
        ]),
      );
    },
  );
  return [
    {
      name: 'observations',
      columns: OBSERVATION_COLUMNS,
      csv: writeCsv(OBSERVATION_COLUMNS, observationRows),
      primaryKey: ['rating_date', 'class', 'plot'],
    },
    {
      name: 'comparison',
      columns: COMPARISON_COLUMNS,
      csv: writeCsv(COMPARISON_COLUMNS, comparisonRows),
      primaryKey: ['rating_date', 'class', 'treatment'],
    },
  ];
}

/** In full; small negative numbers without an exponent, which a spreadsheet's guard would take for a formula. */
function cellText(cell: Cell): string {
  if (cell === null || cell === undefined) return '';
  const text = String(cell);
  return typeof cell === 'number' && /^-.*e-/.test(text) ? cell.toFixed(20) : text;
}
