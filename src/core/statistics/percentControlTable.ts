import { designTerms, treatmentFactor } from './analysisModel.ts';
import { studentTCritical } from './distributions/studentT.ts';
import { hendersonTilton, percentControl } from './efficacy.ts';
import {
  covarianceFactor,
  type EstimableFunction,
  fitLinearModel,
  isEstimable,
  type LinearModelFit,
} from './linearModel/linearModel.ts';
import { levelsOf } from './linearModel/modelTerm.ts';
import { type Note, note } from './note.ts';
import { compareNames, type PlotObservation, type TrialDesign } from './plotObservation.ts';
import { deltaInterval, fiellerInterval } from './ratioInterval.ts';

export const PERCENT_CONTROL_BASES = ['means', 'blocks'] as const;
export type PercentControlBasis = (typeof PERCENT_CONTROL_BASES)[number];

/** How percent control is computed; printed with the figures, since the choices differ when blocks differ. */
export interface PercentControlOptions {
  readonly design: TrialDesign;
  readonly control: string;
  /** From treatment means, or within each block and then averaged. @default 'means' */
  readonly basis?: PercentControlBasis;
  /** Interval of the figure from means. @default 'fieller' */
  readonly interval?: 'fieller' | 'delta';
  /** Values before any treatment, by plot: turns the figure into Henderson-Tilton. @default none */
  readonly baseline?: ReadonlyMap<string, number>;
  /** Control mean (or, block by block, control plot) below which no percent control is given. @default 0 */
  readonly minimumPressure?: number;
  /** @default 0.05 */
  readonly alpha?: number;
}

/** Percent control of one treatment; null where it cannot be given. */
export interface PercentControlEstimate {
  readonly treatment: string;
  readonly percentControl: number | null;
  readonly low: number | null;
  readonly high: number | null;
}

export interface PercentControlTable {
  readonly basis: PercentControlBasis;
  readonly formula: 'abbott' | 'henderson-tilton';
  /** How low and high were found. `delta-log`: delta method on the logarithm of the ratio. */
  readonly interval: 'fieller' | 'delta' | 'delta-log' | 't-over-blocks';
  readonly minimumPressure: number;
  /** All treatments but the control. */
  readonly treatments: readonly PercentControlEstimate[];
  /** Block by block: the value of every block and treatment, for an analysis of its own without the control. */
  readonly blocks: readonly {
    readonly block: string;
    readonly treatment: string;
    readonly percentControl: number;
  }[];
  readonly notes: readonly Note[];
}

/**
 * Percent control of each treatment on one date.
 *
 * Always on the untransformed scale. The control itself has none and takes no part in any analysis of the figures.
 *
 * @param observations one for each plot; the control must be among them, else every figure is null with a note
 * @throws RangeError when blocks are asked for and the design has none
 */
export function percentControlTable(
  observations: readonly PlotObservation[],
  options: PercentControlOptions,
): PercentControlTable {
  const { basis = 'means', minimumPressure = 0, alpha = 0.05, control, baseline } = options;
  if (basis === 'blocks' && options.design !== 'randomized-complete-block') {
    throw new RangeError(`percent control block by block needs blocks, the design is ${options.design}`);
  }
  const formula = baseline ? ('henderson-tilton' as const) : ('abbott' as const);
  const interval =
    basis === 'blocks' ? 't-over-blocks' : baseline ? 'delta-log' : (options.interval ?? 'fieller');
  const plots = baseline ? observations.filter((plot) => baseline.has(plot.plot)) : [...observations];
  const names = levelsOf(observations.map((plot) => plot.treatment)).sort(compareNames);
  const treated = names.filter((name) => name !== control);
  const head = { basis, formula, interval, minimumPressure } as const;
  const empty = (notes: Note[]): PercentControlTable => ({
    ...head,
    treatments: treated.map((treatment) => ({ treatment, percentControl: null, low: null, high: null })),
    blocks: [],
    notes,
  });
  if (!plots.some((plot) => plot.treatment === control)) {
    return empty([note('control-missing', { control, treatments: names })]);
  }
  const choice = note('percent-control-choice', { basis, formula, interval, minimumPressure });
  if (basis === 'blocks')
    return blockTable(plots, { ...options, alpha, minimumPressure }, head, treated, choice);
  const context = meansContext(plots, options);
  const pressure = context.mean(control);
  if (pressure === null) return empty([note('not-estimable', { treatments: [control], pairs: 0 })]);
  if (pressure <= 0) return empty([note('control-is-zero', { control })]);
  // a mean that equals the minimum but for rounding is enough
  if (pressure < minimumPressure * (1 - 1e-12)) {
    return empty([note('pressure-too-low', { control, mean: pressure, minimum: minimumPressure })]);
  }
  const unbounded: string[] = [];
  const baselineZero: string[] = [];
  const treatments = treated.map((treatment): PercentControlEstimate => {
    const none = { treatment, percentControl: null, low: null, high: null };
    const mean = context.mean(treatment);
    if (mean === null) return none;
    if (baseline) {
      const found = baselineEstimate(
        context,
        fitBaseline(plots, options, baseline),
        treatment,
        control,
        alpha,
      );
      if (found.percentControl === null) baselineZero.push(treatment);
      return { treatment, ...found };
    }
    const limits = ratioLimits(context, treatment, control, alpha, options.interval ?? 'fieller');
    if (limits === 'unbounded') unbounded.push(treatment);
    const known = limits === null || limits === 'unbounded' ? null : limits;
    return {
      treatment,
      percentControl: percentControl(pressure, mean),
      low: known && 100 * (1 - known.high),
      high: known && 100 * (1 - known.low),
    };
  });
  return {
    ...head,
    treatments,
    blocks: [],
    notes: [
      choice,
      ...(unbounded.length > 0 ? [note('interval-unbounded', { treatments: unbounded })] : []),
      ...(baselineZero.length > 0 ? [note('baseline-zero', { treatments: baselineZero })] : []),
    ],
  };
}

interface MeansContext {
  readonly fit: LinearModelFit;
  readonly functionOf: (treatment: string) => EstimableFunction | null;
  readonly mean: (treatment: string) => number | null;
}

function meansContext(plots: readonly PlotObservation[], options: PercentControlOptions): MeansContext {
  const terms = designTerms(
    plots,
    options.design,
    [{ name: 'treatment', factors: [treatmentFactor(plots)] }],
    false,
  );
  const fit = fitLinearModel(
    plots.map((plot) => plot.value),
    terms,
  );
  const present = new Set(plots.map((plot) => plot.treatment));
  const functionOf = (treatment: string): EstimableFunction | null => {
    if (!present.has(treatment)) return null;
    const f = fit.reduce(fit.design.meanRow(new Map([['treatment', treatment]])));
    return isEstimable(f) ? f : null;
  };
  return {
    fit,
    functionOf,
    mean: (treatment) => {
      const f = functionOf(treatment);
      return f && fit.estimate(f);
    },
  };
}

function ratioLimits(
  { fit, functionOf, mean }: MeansContext,
  treatment: string,
  control: string,
  alpha: number,
  interval: 'fieller' | 'delta',
): { low: number; high: number } | 'unbounded' | null {
  const df = fit.residualDegreesOfFreedom;
  if (df < 1 || fit.residualSumOfSquares === 0) return null;
  const error = fit.residualSumOfSquares / df;
  const t = functionOf(treatment)!;
  const c = functionOf(control)!;
  const parts = {
    numerator: mean(treatment)!,
    denominator: mean(control)!,
    numeratorVariance: error * covarianceFactor(t, t),
    denominatorVariance: error * covarianceFactor(c, c),
    covariance: error * covarianceFactor(t, c),
  };
  const critical = studentTCritical(alpha, df);
  return interval === 'delta'
    ? deltaInterval(parts, critical)
    : (fiellerInterval(parts, critical) ?? 'unbounded');
}

function fitBaseline(
  plots: readonly PlotObservation[],
  options: PercentControlOptions,
  baseline: ReadonlyMap<string, number>,
): MeansContext {
  return meansContext(
    plots.map((plot) => ({ ...plot, value: baseline.get(plot.plot)! })),
    options,
  );
}

/**
 * Henderson-Tilton from four means of the same plots; the interval takes the covariance of before and after into account.
 */
function baselineEstimate(
  after: MeansContext,
  before: MeansContext,
  treatment: string,
  control: string,
  alpha: number,
): Omit<PercentControlEstimate, 'treatment'> {
  const values = {
    treatedAfter: after.mean(treatment)!,
    untreatedAfter: after.mean(control)!,
    treatedBefore: before.mean(treatment)!,
    untreatedBefore: before.mean(control)!,
  };
  const estimate = hendersonTilton(
    values.untreatedBefore,
    values.untreatedAfter,
    values.treatedBefore,
    values.treatedAfter,
  );
  const df = after.fit.residualDegreesOfFreedom;
  const positive = Object.values(values).every((value) => value > 0);
  if (estimate === null || !positive || df < 1) return { percentControl: estimate, low: null, high: null };
  // log ratio = log Ta - log Tb - (log Ca - log Cb); weights of the coordinates of each response
  const t = after.functionOf(treatment)!.coordinates;
  const c = after.functionOf(control)!.coordinates;
  const weightsAfter = t.map((value, i) => value / values.treatedAfter - c[i]! / values.untreatedAfter);
  const weightsBefore = t.map((value, i) => c[i]! / values.untreatedBefore - value / values.treatedBefore);
  const cross = (a: Float64Array, b: Float64Array): number =>
    a.reduce((sum, value, i) => sum + value * b[i]!, 0);
  const variance =
    (cross(after.fit.residuals, after.fit.residuals) * cross(weightsAfter, weightsAfter) +
      2 * cross(after.fit.residuals, before.fit.residuals) * cross(weightsAfter, weightsBefore) +
      cross(before.fit.residuals, before.fit.residuals) * cross(weightsBefore, weightsBefore)) /
    df;
  const reach = studentTCritical(alpha, df) * Math.sqrt(Math.max(0, variance));
  const ratio = 1 - estimate / 100;
  return {
    percentControl: estimate,
    low: 100 * (1 - ratio * Math.exp(reach)),
    high: 100 * (1 - ratio * Math.exp(-reach)),
  };
}

function blockTable(
  plots: readonly PlotObservation[],
  options: PercentControlOptions & { readonly alpha: number; readonly minimumPressure: number },
  head: Pick<PercentControlTable, 'basis' | 'formula' | 'interval' | 'minimumPressure'>,
  treated: readonly string[],
  choice: Note,
): PercentControlTable {
  const { control, baseline, minimumPressure, alpha } = options;
  const blocks = levelsOf(plots.map((plot) => plot.block!)).sort(compareNames);
  const meanOf = (
    block: string,
    treatment: string,
    value: (plot: PlotObservation) => number,
  ): number | null => {
    const own = plots.filter((plot) => plot.block === block && plot.treatment === treatment);
    return own.length === 0 ? null : own.reduce((sum, plot) => sum + value(plot), 0) / own.length;
  };
  const leftOut: string[] = [];
  const values = blocks.flatMap((block) => {
    const pressure = meanOf(block, control, (plot) => plot.value);
    if (pressure === null || pressure <= 0 || pressure < minimumPressure) {
      leftOut.push(block);
      return [];
    }
    return treated.flatMap((treatment) => {
      const after = meanOf(block, treatment, (plot) => plot.value);
      if (after === null) return [];
      const found = baseline
        ? hendersonTilton(
            meanOf(block, control, (plot) => baseline.get(plot.plot)!)!,
            pressure,
            meanOf(block, treatment, (plot) => baseline.get(plot.plot)!)!,
            after,
          )
        : percentControl(pressure, after);
      return found === null ? [] : [{ block, treatment, percentControl: found }];
    });
  });
  const treatments = treated.map((treatment): PercentControlEstimate => {
    const own = values.filter((value) => value.treatment === treatment).map((value) => value.percentControl);
    if (own.length === 0) return { treatment, percentControl: null, low: null, high: null };
    const mean = own.reduce((sum, value) => sum + value, 0) / own.length;
    if (own.length === 1) return { treatment, percentControl: mean, low: null, high: null };
    const variance = own.reduce((sum, value) => sum + (value - mean) ** 2, 0) / (own.length - 1);
    const reach = studentTCritical(alpha, own.length - 1) * Math.sqrt(variance / own.length);
    return { treatment, percentControl: mean, low: mean - reach, high: mean + reach };
  });
  const notes =
    leftOut.length > 0
      ? [choice, note('blocks-left-out', { blocks: leftOut, minimum: minimumPressure })]
      : [choice];
  return { ...head, treatments, blocks: values, notes };
}
