import type { AnovaRow } from './analysisOfVariance.ts';
import type { PlannedContrast, PlannedContrastEstimate } from './contrasts.ts';
import type { DunnettComparison, PairComparison } from './meanSeparation.ts';
import type { Note } from './note.ts';
import type { TrialDesign } from './plotObservation.ts';
import type { RankTest } from './ranks.ts';
import type { ResidualChecks } from './residualChecks.ts';
import type { Transform } from './transforms.ts';

/** How to analyse the plots of one date. */
export interface AnalysisOptions {
  readonly design: TrialDesign;
  /** @default 'none' */
  readonly transform?: Transform;
  /** Level of significance, between 0 and 1. @default 0.05 */
  readonly alpha?: number;
  /** Untreated control for Dunnett's test. @default null */
  readonly control?: string | null;
  /** Names of treatment factors, for a factorial table. @default none */
  readonly factors?: readonly string[];
  /** Planned contrasts among treatments. @default none */
  readonly contrasts?: readonly PlannedContrast[];
  /** Adjust for the baseline in `covariate`. @default false */
  readonly covariate?: boolean;
}

/** A treatment's mean with what separates it from others. Values that cannot be computed are null, with a note. */
export interface TreatmentMean {
  readonly treatment: string;
  /** Plots with a value. */
  readonly n: number;
  /** Least-squares mean on the scale of the response (back-transformed under a transform). */
  readonly mean: number | null;
  /** Standard error of the mean from the pooled error; null under a transform. */
  readonly standardError: number | null;
  /** Confidence limits of the mean at 1 - alpha, on the scale of the response. */
  readonly low: number | null;
  readonly high: number | null;
  /** Arithmetic mean of the plots present. */
  readonly arithmeticMean: number;
  /** Mean and standard error on the scale of the analysis; only under a transform. */
  readonly meanTransformed?: number | null;
  readonly standardErrorTransformed?: number | null;
  /** Letters of the protected LSD; null unless the F test is significant. */
  readonly lettersLsd: string | null;
  readonly lettersHsd: string | null;
  /** Difference from the control after Dunnett, on the scale of the analysis; null for the control itself. */
  readonly dunnett: DunnettComparison | null;
}

/** Mean of a level of a treatment factor, averaged over the other factors. */
export interface FactorMean {
  readonly factor: string;
  readonly level: string;
  readonly n: number;
  readonly mean: number | null;
  readonly standardError: number | null;
}

/** Comparison of treatments on one set of plots. */
export interface TreatmentAnalysis {
  readonly design: TrialDesign;
  readonly transform: Transform;
  readonly alpha: number;
  readonly anova: readonly AnovaRow[];
  readonly meanSquareError: number | null;
  readonly errorDf: number;
  /** Arithmetic mean of all plots on the scale of the analysis. */
  readonly grandMean: number;
  /** Percent; on the scale of the analysis. */
  readonly coefficientOfVariation: number | null;
  /** The one value where all pairs have the same standard error, else null (each pair then has its own). */
  readonly standardErrorOfDifference: number | null;
  readonly leastSignificantDifference: { readonly alpha: number; readonly value: number | null };
  readonly honestlySignificantDifference: { readonly alpha: number; readonly value: number | null };
  readonly treatments: readonly TreatmentMean[];
  /** Differences are on the scale of the analysis. */
  readonly pairs: readonly PairComparison[];
  readonly contrasts: readonly PlannedContrastEstimate[];
  /** Sequential and adjusted (type II) tables of factorial treatments, and their factor means. */
  readonly factorial: {
    readonly anova: readonly AnovaRow[];
    readonly adjusted: readonly AnovaRow[];
    readonly means: readonly FactorMean[];
  } | null;
  /** Rank test of the same question: Friedman in complete blocks, Kruskal-Wallis without blocks. */
  readonly rankTest: ({ readonly method: 'friedman' | 'kruskal-wallis' } & RankTest) | null;
  readonly residualChecks: ResidualChecks;
  readonly notes: readonly Note[];
}
