import { designTerms, factorialTerms, groundFactors, treatmentFactor } from './analysisModel.ts';
import { analysisNotes } from './analysisNotes.ts';
import { adjustedAnovaRows, anovaRows } from './analysisOfVariance.ts';
import { estimateContrasts } from './contrasts.ts';
import { studentTCritical } from './distributions/studentT.ts';
import {
  covarianceFactor,
  type EstimableFunction,
  fitLinearModel,
  isEstimable,
  type LinearModelFit,
} from './linearModel/linearModel.ts';
import { levelsOf } from './linearModel/modelTerm.ts';
import { comparePairs, type MeanSeparation } from './meanSeparation.ts';
import { compareNames, type PlotObservation, type TrialDesign } from './plotObservation.ts';
import { friedman, kruskalWallis } from './ranks.ts';
import { residualChecks } from './residualChecks.ts';
import { applyTransform, type Transform, undoTransform } from './transforms.ts';
import type { AnalysisOptions, FactorMean, TreatmentAnalysis, TreatmentMean } from './treatmentAnalysis.ts';

/**
 * Analysis of variance and separation of treatment means on one rating date.
 *
 * Blocks first, then a baseline if asked for, then treatments, by least squares, so missing plots need no repair: means are
 * least-squares means (blocks equally weighted) and every pair has its own standard error.
 *
 * @param observations one for each plot, not empty; subsamples already averaged
 * @throws RangeError on no observations, alpha outside 0..1, or a block, row or column the design needs and a plot lacks
 */
export function analyseTreatments(
  observations: readonly PlotObservation[],
  options: AnalysisOptions,
): TreatmentAnalysis {
  const { design, transform = 'none', alpha = 0.05, control = null, factors = [] } = options;
  if (!(alpha > 0 && alpha < 1)) throw new RangeError(`alpha must be between 0 and 1, got ${alpha}`);
  // A fixed order makes the arithmetic, to its last digit, independent of the order of the rows.
  const plots = [...observations].sort(
    (a, b) =>
      compareNames(a.treatment, b.treatment) ||
      compareNames(a.block ?? '', b.block ?? '') ||
      compareNames(a.plot, b.plot),
  );
  const response = plots.map((plot) => applyTransform(transform, plot.value));
  const factor = treatmentFactor(plots);
  const names = levelsOf(factor.values);
  const treatmentTerm = { name: 'treatment', factors: [factor] };
  const terms = designTerms(plots, design, [treatmentTerm], options.covariate ?? false);
  const fit = fitLinearModel(response, terms);
  const anova = anovaRows(fit);
  const errorDf = fit.residualDegreesOfFreedom;
  const meanSquareError = errorDf > 0 ? fit.residualSumOfSquares / errorDf : null;
  const functions = names.map((name) => fit.reduce(fit.design.meanRow(new Map([['treatment', name]]))));
  const means = functions.map((f) => (isEstimable(f) ? fit.estimate(f) : null));
  const treatmentP = anova.find((row) => row.source === 'treatment')?.p ?? null;
  const separation = comparePairs({
    fit,
    names,
    functions,
    means,
    meanSquareError,
    alpha,
    control,
    treatmentP,
  });
  const checks = residualChecks(
    fit,
    response,
    terms,
    factor.values,
    plots.map((plot) => plot.plot),
  );
  const summary = {
    design,
    transform,
    alpha,
    anova,
    meanSquareError,
    errorDf,
    grandMean: fit.mean,
    coefficientOfVariation:
      meanSquareError !== null && fit.mean > 0 ? (100 * Math.sqrt(meanSquareError)) / fit.mean : null,
    standardErrorOfDifference: separation.standardErrorOfDifference,
    leastSignificantDifference: { alpha, value: separation.leastSignificantDifference },
    honestlySignificantDifference: { alpha, value: separation.honestlySignificantDifference },
    treatments: treatmentMeans({
      plots,
      names,
      functions,
      means,
      meanSquareError,
      errorDf,
      alpha,
      transform,
      separation,
    }),
    pairs: separation.pairs,
    contrasts: estimateContrasts(options.contrasts ?? [], { fit, names, functions, meanSquareError, alpha }),
    factorial: factors.length > 0 ? factorialAnalysis(plots, response, options, factors) : null,
    rankTest: rankTest(plots, response, design, names),
    residualChecks: checks,
  };
  return { ...summary, notes: analysisNotes(plots, summary, { control, treatmentP, separation }) };
}

function treatmentMeans(input: {
  readonly plots: readonly PlotObservation[];
  readonly names: readonly string[];
  readonly functions: readonly EstimableFunction[];
  readonly means: readonly (number | null)[];
  readonly meanSquareError: number | null;
  readonly errorDf: number;
  readonly alpha: number;
  readonly transform: Transform;
  readonly separation: MeanSeparation;
}): TreatmentMean[] {
  const { plots, names, functions, means, meanSquareError, alpha, transform, separation } = input;
  const t = input.errorDf > 0 ? studentTCritical(alpha, input.errorDf) : null;
  return names.map((treatment, index) => {
    const own = plots.filter((plot) => plot.treatment === treatment);
    const mean = means[index]!;
    const standardError =
      mean === null || meanSquareError === null
        ? null
        : Math.sqrt(meanSquareError * covarianceFactor(functions[index]!, functions[index]!));
    const back = (value: number | null): number | null =>
      value === null ? null : undoTransform(transform, value);
    const reach = standardError === null || t === null ? null : t * standardError;
    return {
      treatment,
      n: own.length,
      mean: back(mean),
      standardError: transform === 'none' ? standardError : null,
      low: back(mean === null || reach === null ? null : mean - reach),
      high: back(mean === null || reach === null ? null : mean + reach),
      arithmeticMean: own.reduce((sum, plot) => sum + plot.value, 0) / own.length,
      ...(transform === 'none' ? {} : { meanTransformed: mean, standardErrorTransformed: standardError }),
      lettersLsd: separation.lettersLsd?.[index] ?? null,
      lettersHsd: separation.lettersHsd?.[index] ?? null,
      dunnett: separation.dunnett[index] ?? null,
    };
  });
}

function factorialAnalysis(
  plots: readonly PlotObservation[],
  response: readonly number[],
  options: AnalysisOptions,
  factors: readonly string[],
): NonNullable<TreatmentAnalysis['factorial']> {
  const terms = designTerms(
    plots,
    options.design,
    factorialTerms(plots, factors),
    options.covariate ?? false,
  );
  const fit = fitLinearModel(response, terms);
  const means = factors.flatMap((factor) => {
    const values = plots.map((plot) => plot.factors![factor]!);
    return levelsOf(values)
      .sort(compareNames)
      .map((level) => factorMean(fit, factor, level, values.filter((value) => value === level).length));
  });
  return { anova: anovaRows(fit), adjusted: adjustedAnovaRows(response, terms), means };
}

function factorMean(fit: LinearModelFit, factor: string, level: string, n: number): FactorMean {
  const f = fit.reduce(fit.design.meanRow(new Map([[factor, level]])));
  if (!isEstimable(f)) return { factor, level, n, mean: null, standardError: null };
  const standardError =
    fit.residualDegreesOfFreedom > 0
      ? Math.sqrt((fit.residualSumOfSquares / fit.residualDegreesOfFreedom) * covarianceFactor(f, f))
      : null;
  return { factor, level, n, mean: fit.estimate(f), standardError };
}

function rankTest(
  plots: readonly PlotObservation[],
  response: readonly number[],
  design: TrialDesign,
  names: readonly string[],
): TreatmentAnalysis['rankTest'] {
  const ground = groundFactors(design);
  if (ground.length === 0) {
    const groups = names.map((name) => response.filter((_, index) => plots[index]!.treatment === name));
    const test = kruskalWallis(groups);
    return test && { method: 'kruskal-wallis', ...test };
  }
  if (ground.length > 1) return null;
  const blocks = levelsOf(plots.map((plot) => plot.block ?? '')).map((block) =>
    names.map((name) =>
      response.filter((_, index) => plots[index]!.block === block && plots[index]!.treatment === name),
    ),
  );
  if (!blocks.every((block) => block.every((cell) => cell.length === 1))) return null;
  const test = friedman(blocks.map((block) => block.map((cell) => cell[0]!)));
  return test && { method: 'friedman', ...test };
}
