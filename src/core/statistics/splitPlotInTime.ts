import { designTerms, treatmentFactor } from './analysisModel.ts';
import { type AnovaRow, anovaRows, residualRow, testedRow } from './analysisOfVariance.ts';
import { fisherFUpperTail } from './distributions/fisherF.ts';
import { fitLinearModel } from './linearModel/linearModel.ts';
import type { PlotObservation, TrialDesign } from './plotObservation.ts';

/** A plot rated on every date, values in the order of the dates. */
export interface PlotSeries {
  readonly plot: Omit<PlotObservation, 'value'>;
  readonly values: readonly number[];
}

/** A test within plots, with the p after Greenhouse and Geisser's correction of both degrees of freedom. */
export interface WithinPlotRow extends AnovaRow {
  readonly pGreenhouseGeisser: number | null;
}

/** Analysis of several dates on the same plots. */
export interface SplitPlotInTime {
  /** Blocks and treatments against the variation of plots, in units of single ratings. */
  readonly betweenPlots: readonly AnovaRow[];
  /** Dates and treatments by dates against the variation within plots. */
  readonly withinPlots: readonly WithinPlotRow[];
  /** 1 when differences between any two dates vary alike, down to 1 / (dates - 1); null when it cannot be estimated. */
  readonly greenhouseGeisserEpsilon: number | null;
}

/**
 * Split plot in time: plots are the whole units, dates the split units. Every plot must have all dates.
 *
 * Ratings of one plot resemble each other, so dates are no replicates: treatments are tested against plots. Within plots the
 * ordinary F supposes equal variances and correlations of all date differences; the corrected p does not.
 *
 * @param plots with equally many values, 2 dates or more
 * @throws RangeError on fewer dates or unequal lengths
 * @see Gomez & Gomez 1984, chapter 6; Greenhouse & Geisser 1959, Psychometrika 24:95
 */
export function splitPlotInTime(plots: readonly PlotSeries[], design: TrialDesign): SplitPlotInTime {
  const dates = plots[0]?.values.length ?? 0;
  if (dates < 2 || plots.some(({ values }) => values.length !== dates)) {
    throw new RangeError('split plot in time needs the same 2 dates or more for every plot');
  }
  const observations = plots.map(({ plot, values }) => ({
    ...plot,
    value: values.reduce((sum, value) => sum + value, 0) / dates,
  }));
  const treatment = { name: 'treatment', factors: [treatmentFactor(observations)] };
  const between = fitLinearModel(
    // times the root of the number of dates, so that sums of squares are those of single ratings
    observations.map((plot) => plot.value * Math.sqrt(dates)),
    designTerms(observations, design, [treatment], false),
  );
  const contrasts = orthonormalContrasts(dates).map((weights) =>
    fitLinearModel(
      plots.map(({ values }) => values.reduce((sum, value, i) => sum + value * weights[i]!, 0)),
      [treatment],
    ),
  );
  const sum = (of: (fit: (typeof contrasts)[number]) => number): number =>
    contrasts.reduce((total, fit) => total + of(fit), 0);
  const residual = {
    df: sum((fit) => fit.residualDegreesOfFreedom),
    sumOfSquares: sum((fit) => fit.residualSumOfSquares),
  };
  const epsilon = greenhouseGeisser(contrasts.map((fit) => fit.residuals));
  const corrected = (row: AnovaRow): WithinPlotRow => ({
    ...row,
    pGreenhouseGeisser:
      row.f === null || epsilon === null
        ? null
        : fisherFUpperTail(row.f, epsilon * row.df, epsilon * residual.df),
  });
  return {
    betweenPlots: anovaRows(between),
    withinPlots: [
      testedRow(
        'date',
        dates - 1,
        sum((fit) => plots.length * fit.mean ** 2),
        residual,
      ),
      testedRow(
        'treatment:date',
        sum((fit) => fit.terms[0]!.degreesOfFreedom),
        sum((fit) => fit.terms[0]!.sumOfSquares),
        residual,
      ),
      residualRow(residual.df, residual.sumOfSquares),
    ].map(corrected),
    greenhouseGeisserEpsilon: epsilon,
  };
}

/** Box's epsilon of the pooled covariance of orthonormal contrasts. */
function greenhouseGeisser(residuals: readonly Float64Array[]): number | null {
  const size = residuals.length;
  let trace = 0;
  let squares = 0;
  for (let i = 0; i < size; i += 1) {
    for (let j = 0; j < size; j += 1) {
      const product = residuals[i]!.reduce((sum, value, index) => sum + value * residuals[j]![index]!, 0);
      if (i === j) trace += product;
      squares += product * product;
    }
  }
  return squares > 0 ? Math.min(1, (trace * trace) / (size * squares)) : null;
}

/** Helmert contrasts of length 1: size - 1 rows, each orthogonal to the constant and to the others. */
function orthonormalContrasts(size: number): number[][] {
  return Array.from({ length: size - 1 }, (_, row) => {
    const scale = 1 / Math.sqrt((row + 1) * (row + 2));
    return Array.from({ length: size }, (_, i) =>
      i <= row ? scale : i === row + 1 ? -(row + 1) * scale : 0,
    );
  });
}
