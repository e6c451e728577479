import { fisherFUpperTail } from './distributions/fisherF.ts';
import { fitLinearModel, type LinearModelFit } from './linearModel/linearModel.ts';
import type { ModelTerm } from './linearModel/modelTerm.ts';

/** A row of an analysis of variance. `null` where a value cannot be computed. */
export interface AnovaRow {
  readonly source: string;
  readonly df: number;
  readonly sumOfSquares: number;
  readonly meanSquare: number | null;
  readonly f: number | null;
  readonly p: number | null;
}

/** Sequential table of a fit: each term adjusted for those before it, then the residual. */
export function anovaRows(fit: LinearModelFit): AnovaRow[] {
  const residual = {
    df: fit.residualDegreesOfFreedom,
    sumOfSquares: fit.residualSumOfSquares,
  };
  return [
    ...fit.terms.map((term) => testedRow(term.name, term.degreesOfFreedom, term.sumOfSquares, residual)),
    residualRow(residual.df, residual.sumOfSquares),
  ];
}

/**
 * Table in which each term is adjusted for all others that do not contain it (type II).
 *
 * @param terms factors and interactions; an interaction contains the terms whose factors are all among its own
 */
export function adjustedAnovaRows(response: readonly number[], terms: readonly ModelTerm[]): AnovaRow[] {
  const full = fitLinearModel(response, terms);
  const residual = { df: full.residualDegreesOfFreedom, sumOfSquares: full.residualSumOfSquares };
  const rows = terms.map((term) => {
    const others = terms.filter((other) => other !== term && !contains(other, term));
    const fit = fitLinearModel(response, [...others, term]);
    const last = fit.terms[fit.terms.length - 1]!;
    return testedRow(term.name, last.degreesOfFreedom, last.sumOfSquares, residual);
  });
  return [...rows, residualRow(residual.df, residual.sumOfSquares)];
}

/** A row tested against a residual; F stays empty without error variance or degrees of freedom. */
export function testedRow(
  source: string,
  df: number,
  sumOfSquares: number,
  residual: { readonly df: number; readonly sumOfSquares: number },
): AnovaRow {
  const meanSquare = df > 0 ? sumOfSquares / df : null;
  if (meanSquare === null || residual.df <= 0 || residual.sumOfSquares <= 0) {
    return { source, df, sumOfSquares, meanSquare, f: null, p: null };
  }
  const f = meanSquare / (residual.sumOfSquares / residual.df);
  return { source, df, sumOfSquares, meanSquare, f, p: fisherFUpperTail(f, df, residual.df) };
}

/** The last row of a table. */
export function residualRow(df: number, sumOfSquares: number): AnovaRow {
  return {
    source: 'residual',
    df,
    sumOfSquares,
    meanSquare: df > 0 ? sumOfSquares / df : null,
    f: null,
    p: null,
  };
}

function contains(larger: ModelTerm, smaller: ModelTerm): boolean {
  if (!('factors' in larger) || !('factors' in smaller)) return false;
  if (larger.factors.length <= smaller.factors.length) return false;
  const names = new Set(larger.factors.map((factor) => factor.name));
  return smaller.factors.every((factor) => names.has(factor.name));
}
