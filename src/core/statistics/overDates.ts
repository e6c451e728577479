import { dayNumber } from '../trial/calendarDay.ts';
import { analyseTreatments } from './analyseTreatments.ts';
import { groundFactors } from './analysisModel.ts';
import { type AreaUnderCurve, areaUnderCurve } from './areaUnderCurve.ts';
import { levelsOf } from './linearModel/modelTerm.ts';
import type { MixedModelFit } from './mixedModel/mixedModel.ts';
import { fitMixedModel } from './mixedModel/mixedModel.ts';
import type { MixedModelData } from './mixedModel/residualLikelihood.ts';
import { type Note, note } from './note.ts';
import { compareNames, type PlotObservation, type TrialDesign } from './plotObservation.ts';
import { type PlotSeries, type SplitPlotInTime, splitPlotInTime } from './splitPlotInTime.ts';
import { applyTransform } from './transforms.ts';
import type { AnalysisOptions, TreatmentAnalysis } from './treatmentAnalysis.ts';

/** A plot on a rating date. */
export interface DatedObservation extends PlotObservation {
  /** YYYY-MM-DD. */
  readonly ratingDate: string;
}

/** F test of a fixed effect in the mixed model. */
export interface MixedModelTest {
  readonly source: 'treatment' | 'date' | 'treatment:date';
  readonly numeratorDf: number;
  readonly denominatorDf: number;
  readonly f: number;
  readonly p: number;
}

/** Mean of a treatment over all dates, dates equally weighted. */
export interface OverallMean {
  readonly treatment: string;
  readonly mean: number;
  readonly standardError: number;
}

/** Analysis of all dates together. */
export interface OverDatesAnalysis {
  readonly dates: readonly string[];
  /** Split plot in time when every plot has every date; else a mixed model with random plots; null when neither can be. */
  readonly splitPlot: SplitPlotInTime | null;
  readonly mixedModel: {
    readonly tests: readonly MixedModelTest[];
    readonly varianceComponents: Readonly<Record<string, number>>;
    readonly means: readonly OverallMean[];
  } | null;
  /** Analysis of the area under each plot's curve divided by its span: the average value over time. */
  readonly area: {
    readonly unit: 'mean over time';
    readonly spanDays: number;
    readonly analysis: TreatmentAnalysis;
    readonly plots: readonly {
      readonly plot: string;
      readonly area: number;
      readonly meanOverTime: number;
    }[];
  } | null;
  readonly notes: readonly Note[];
}

/** Above this many degrees of freedom a hypothesis is not tested: the trial has too many treatments by dates for one model. */
const LARGEST_HYPOTHESIS = 400;

/**
 * Compares treatments over several rating dates of the same plots.
 *
 * A transformation is applied to single ratings for the tests over dates, and to the area after it is taken.
 *
 * @param observations one for each plot and date; subsamples averaged
 * @returns null with fewer than 2 dates
 */
export function analyseOverDates(
  observations: readonly DatedObservation[],
  options: AnalysisOptions,
): OverDatesAnalysis | null {
  const dates = levelsOf(observations.map(({ ratingDate }) => ratingDate)).sort();
  if (dates.length < 2) return null;
  const plots = levelsOf(observations.map(({ plot }) => plot)).sort(compareNames);
  const values = new Map<string, Map<string, DatedObservation>>(plots.map((plot) => [plot, new Map()]));
  for (const observation of observations)
    values.get(observation.plot)!.set(observation.ratingDate, observation);
  const complete = plots.filter((plot) => values.get(plot)!.size === dates.length);
  const incomplete = plots.filter((plot) => values.get(plot)!.size < dates.length);
  const series = complete.map((plot): PlotSeries => {
    const own = values.get(plot)!;
    const { value: _, ...head } = own.get(dates[0]!)!;
    return { plot: head, values: dates.map((date) => own.get(date)!.value) };
  });
  const notes: Note[] = [];
  const treatments = levelsOf(observations.map(({ treatment }) => treatment));
  let splitPlot: SplitPlotInTime | null = null;
  let mixedModel: OverDatesAnalysis['mixedModel'] = null;
  if (treatments.length < 2) notes.push(note('one-treatment', { treatment: treatments[0]! }));
  else if (incomplete.length === 0) {
    const transformed = series.map(({ plot, values }) => ({
      plot,
      values: values.map((value) => applyTransform(options.transform ?? 'none', value)),
    }));
    splitPlot = splitPlotInTime(transformed, options.design);
    if (splitPlot.withinPlots.every(({ f }) => f === null)) notes.push(note('zero-error-variance'));
  } else {
    notes.push(note('incomplete-plots', { plots: incomplete, dates: dates.length }));
    const transformed = observations.map((observation) => ({
      ...observation,
      value: applyTransform(options.transform ?? 'none', observation.value),
    }));
    const found = analyseMixed(transformed, dates, options.design);
    mixedModel = found.result;
    notes.push(...found.notes);
  }
  const spanning = plots.filter((plot) =>
    [dates[0]!, dates.at(-1)!].every((date) => values.get(plot)!.has(date)),
  );
  const area =
    spanning.length === 0
      ? null
      : analyseArea(
          spanning.map((plot) => [...values.get(plot)!.values()]),
          dates,
          options,
        );
  const bridged = incomplete.filter((plot) => spanning.includes(plot));
  const leftOut = incomplete.filter((plot) => !spanning.includes(plot));
  if (bridged.length > 0) notes.push(note('area-bridged', { plots: bridged }));
  if (leftOut.length > 0) notes.push(note('area-missing-plots', { plots: leftOut, kept: spanning.length }));
  return { dates, splitPlot, mixedModel, area, notes };
}

/** Trapezoids between the dates a plot has: a straight line over a missed date, as between any two ratings. */
function analyseArea(
  plots: readonly (readonly DatedObservation[])[],
  dates: readonly string[],
  options: AnalysisOptions,
): OverDatesAnalysis['area'] {
  const areas = plots.map((own) => {
    const sorted = [...own].sort((a, b) => (a.ratingDate < b.ratingDate ? -1 : 1));
    const days = sorted.map(({ ratingDate }) => dayNumber(ratingDate));
    const found = areaUnderCurve(
      days,
      sorted.map(({ value }) => value),
    ) as Measured;
    return { plot: sorted[0]!, found };
  });
  return {
    unit: 'mean over time',
    spanDays: dayNumber(dates.at(-1)!) - dayNumber(dates[0]!),
    analysis: analyseTreatments(
      areas.map(({ plot, found }) => ({ ...plot, value: found.meanOverTime })),
      options,
    ),
    plots: areas.map(({ plot, found }) => ({ plot: plot.plot, ...found })),
  };
}

/** With 2 dates or more the mean over time is known. */
type Measured = AreaUnderCurve & { readonly meanOverTime: number };

function analyseMixed(
  observations: readonly DatedObservation[],
  dates: readonly string[],
  design: TrialDesign,
): { result: OverDatesAnalysis['mixedModel']; notes: Note[] } {
  const treatments = levelsOf(observations.map(({ treatment }) => treatment)).sort(compareNames);
  const cells = treatments.flatMap((treatment) => dates.map((date) => JSON.stringify([treatment, date])));
  const cellOf = ({ treatment, ratingDate }: DatedObservation): string =>
    JSON.stringify([treatment, ratingDate]);
  const filled = new Set(observations.map(cellOf));
  const empty = cells.filter((cell) => !filled.has(cell));
  if (empty.length > 0) {
    const named = empty.map((cell) => (JSON.parse(cell) as string[]).join(' / '));
    return { result: null, notes: [note('empty-cells', { cells: named })] };
  }
  const fit = fitMixedModel(mixedModelData(observations, cells, cellOf, design));
  if (!fit) return { result: null, notes: [note('not-estimable', { treatments: [], pairs: 0 })] };
  const notes = [note('mixed-model-used')];
  if (fit.atZero.length > 0) notes.push(note('plot-variance-at-zero'));
  if (!fit.converged) notes.push(note('not-converged'));
  const size = fit.coefficients.length;
  const average = (treatment: number | null, date: number | null): Float64Array => {
    const f = new Float64Array(size);
    treatments.forEach((_, t) => {
      dates.forEach((_, d) => {
        if ((treatment ?? t) === t && (date ?? d) === d) {
          f[t * dates.length + d] =
            1 / ((treatment === null ? treatments.length : 1) * (date === null ? dates.length : 1));
        }
      });
    });
    return f;
  };
  const minus = (a: Float64Array, b: Float64Array): Float64Array => a.map((value, i) => value - b[i]!);
  const byTreatment = treatments.slice(1).map((_, i) => minus(average(i + 1, null), average(0, null)));
  const byDate = dates.slice(1).map((_, i) => minus(average(null, i + 1), average(null, 0)));
  const interaction = treatments
    .slice(1)
    .flatMap((_, t) =>
      dates
        .slice(1)
        .map((_, d) =>
          minus(minus(average(t + 1, d + 1), average(0, d + 1)), minus(average(t + 1, 0), average(0, 0))),
        ),
    );
  const tests = (
    [
      ['treatment', byTreatment],
      ['date', byDate],
      ['treatment:date', interaction],
    ] as const
  ).flatMap(([source, functions]) =>
    functions.length > LARGEST_HYPOTHESIS ? [] : [testOf(fit, source, functions)],
  );
  if (interaction.length > LARGEST_HYPOTHESIS) {
    notes.push(note('interaction-too-large', { df: interaction.length, limit: LARGEST_HYPOTHESIS }));
  }
  const overall = fit.test(treatments.map((_, i) => average(i, null)));
  const means = treatments.map((treatment, i) => ({
    treatment,
    mean: overall.estimates[i]!,
    standardError: overall.standardErrors[i]!,
  }));
  return { result: { tests, varianceComponents: fit.varianceComponents, means }, notes };
}

function testOf(
  fit: MixedModelFit,
  source: MixedModelTest['source'],
  functions: readonly Float64Array[],
): MixedModelTest {
  const { numeratorDf, denominatorDf, f, p } = fit.test(functions);
  return { source, numeratorDf, denominatorDf, f, p };
}

/** Cell means of treatment and date, ground factors as deviations that add to zero, plots random. */
function mixedModelData(
  observations: readonly DatedObservation[],
  cells: readonly string[],
  cellOf: (observation: DatedObservation) => string,
  design: TrialDesign,
): MixedModelData {
  const cellIndex = new Map(cells.map((cell, index) => [cell, index]));
  let size = cells.length;
  const ground = groundFactors(design).map((name) => {
    const levels = levelsOf(observations.map((observation) => observation[name] ?? ''));
    const from = size;
    size += levels.length - 1;
    return { name, from, levels };
  });
  const rows = observations.map((observation) => {
    const row: [number, number][] = [[cellIndex.get(cellOf(observation))!, 1]];
    for (const { name, from, levels } of ground) {
      const at = levels.indexOf(observation[name] ?? '');
      if (at < levels.length - 1) row.push([from + at, 1]);
      else for (let i = 0; i < levels.length - 1; i += 1) row.push([from + i, -1]);
    }
    return row;
  });
  return {
    response: observations.map(({ value }) => value),
    rows,
    size,
    random: [{ name: 'plot', levels: observations.map(({ plot }) => plot) }],
  };
}
