import { fisherFUpperTail } from './distributions/fisherF.ts';
import { studentTTwoSided } from './distributions/studentT.ts';
import { fitLinearModel, type LinearModelFit } from './linearModel/linearModel.ts';
import { levelsOf, type ModelTerm } from './linearModel/modelTerm.ts';
import { median } from './median.ts';
import { type ShapiroWilk, shapiroWilk } from './shapiroWilk.ts';

/** What the residuals say about the assumptions of the analysis; null where there are too few plots to tell. */
export interface ResidualChecks {
  /** Are residuals normal? */
  readonly shapiroWilk: ShapiroWilk | null;
  /** Are treatments equally variable? Brown & Forsythe on the residuals. */
  readonly equalVariance: { readonly f: number; readonly p: number } | null;
  /** The plot furthest off: studentized without itself, p times the number of plots (Bonferroni). */
  readonly largestResidual: {
    readonly plot: string;
    readonly studentized: number;
    readonly p: number;
  } | null;
  /** Do blocks and treatments add? Tukey's single degree of freedom. */
  readonly nonAdditivity: { readonly f: number; readonly p: number } | null;
}

/**
 * Checks the residuals of a fit.
 *
 * @param response the analysed values
 * @param terms of the fit
 * @param treatments treatment of each observation
 * @param plots name of each observation
 * @see Brown & Forsythe 1974, J. Am. Stat. Assoc. 69:364; Tukey 1949, Biometrics 5:232
 */
export function residualChecks(
  fit: LinearModelFit,
  response: readonly number[],
  terms: readonly ModelTerm[],
  treatments: readonly string[],
  plots: readonly string[],
): ResidualChecks {
  if (fit.residualDegreesOfFreedom < 1 || fit.residualSumOfSquares === 0) {
    return { shapiroWilk: null, equalVariance: null, largestResidual: null, nonAdditivity: null };
  }
  const residuals = [...fit.residuals];
  return {
    shapiroWilk: shapiroWilk(residuals),
    equalVariance: equalVariance(residuals, treatments),
    largestResidual: largestResidual(fit, plots),
    nonAdditivity: terms.length > 1 ? nonAdditivity(fit, response, terms) : null,
  };
}

function equalVariance(
  residuals: readonly number[],
  treatments: readonly string[],
): { f: number; p: number } | null {
  const levels = levelsOf(treatments);
  const centres = new Map(
    levels.map((level) => [level, median(residuals.filter((_, index) => treatments[index] === level))]),
  );
  const distances = residuals.map((value, index) => Math.abs(value - centres.get(treatments[index]!)!));
  if (levels.length < 2) return null;
  const fit = fitLinearModel(distances, [
    { name: 'treatment', factors: [{ name: 'treatment', values: treatments }] },
  ]);
  if (fit.residualDegreesOfFreedom < 1 || fit.residualSumOfSquares === 0) return null;
  const term = fit.terms[0]!;
  const error = fit.residualSumOfSquares / fit.residualDegreesOfFreedom;
  const f = term.sumOfSquares / term.degreesOfFreedom / error;
  return { f, p: fisherFUpperTail(f, term.degreesOfFreedom, fit.residualDegreesOfFreedom) };
}

function largestResidual(
  fit: LinearModelFit,
  plots: readonly string[],
): { plot: string; studentized: number; p: number } | null {
  const df = fit.residualDegreesOfFreedom - 1;
  if (df < 1) return null;
  const leverages = fit.leverages();
  let worst: { index: number; studentized: number } | null = null;
  fit.residuals.forEach((residual, index) => {
    const free = 1 - leverages[index]!;
    if (free < 1e-9) return;
    const without = (fit.residualSumOfSquares - residual ** 2 / free) / df;
    // a plot that alone makes all the error has no finite studentized residual
    if (!(without > fit.residualSumOfSquares * 1e-12)) return;
    const studentized = residual / Math.sqrt(without * free);
    if (!worst || Math.abs(studentized) > Math.abs(worst.studentized)) worst = { index, studentized };
  });
  const found = worst as { index: number; studentized: number } | null;
  if (!found) return null;
  return {
    plot: plots[found.index]!,
    studentized: found.studentized,
    p: Math.min(1, fit.residuals.length * studentTTwoSided(found.studentized, df)),
  };
}

function nonAdditivity(
  fit: LinearModelFit,
  response: readonly number[],
  terms: readonly ModelTerm[],
): { f: number; p: number } | null {
  const squares = response.map((value, index) => (value - fit.residuals[index]! - fit.mean) ** 2);
  const extended = fitLinearModel(response, [...terms, { name: 'square of fitted', covariate: squares }]);
  const last = extended.terms[extended.terms.length - 1]!;
  const df = extended.residualDegreesOfFreedom;
  if (last.degreesOfFreedom !== 1 || df < 1 || extended.residualSumOfSquares === 0) return null;
  const f = last.sumOfSquares / (extended.residualSumOfSquares / df);
  return { f, p: fisherFUpperTail(f, 1, df) };
}
