import type { DeclaredAnalysis } from '../../../core/statistics/declaredAnalysis.ts';
import {
  type ComparedVariable,
  comparedVariables,
  variableKey,
} from '../../../core/statistics/declaredAnalysis.ts';
import { compareNames } from '../../../core/statistics/plotObservation.ts';
import type { TreatmentAnalysis } from '../../../core/statistics/treatmentAnalysis.ts';
import { type VariableWords, variableWords } from '../../../core/text/compare.ts';
import type { TrialPlan } from '../../../core/trial/trialPlan.ts';
import type { ChartTreatment, Quantity, TreatmentMean } from '../../charts/chartTypes.ts';
import {
  type ComparisonState,
  comparisonName,
  type PlotsCompared,
  type TrialComparison,
  type VariableComparison,
} from '../../session/comparison.ts';
import type { OpenTrial } from '../../session/trialSession.ts';

/** What every part of the screen works on: a trial whose analysis is declared. */
export interface ComparedTrial {
  readonly part: TrialComparison;
  readonly state: ComparisonState;
  readonly trial: OpenTrial;
  readonly plan: TrialPlan;
  readonly declared: DeclaredAnalysis;
}

export const wordsOf = ({ plan, declared }: ComparedTrial, variable: ComparedVariable): VariableWords =>
  variableWords(variable, declared.classes, plan.ratedVariables);

/** Null while nothing of it was worked out. */
export const comparisonOf = (
  { state }: ComparedTrial,
  variable: ComparedVariable,
  plots: PlotsCompared = 'as-declared',
): VariableComparison | null => state.comparisons.get(comparisonName(variable, plots)) ?? null;

/** The declared variable first, then all others of the trial. */
export function variablesOf({ plan, declared }: ComparedTrial): readonly ComparedVariable[] {
  const key = variableKey(declared.variable);
  return [
    declared.variable,
    ...comparedVariables(plan).filter(
      (variable) => variableKey(variable) !== key && variable.kind !== 'colour',
    ),
  ];
}

/** Treatments as charts name them, by number. */
export function chartTreatments({ treatments }: Pick<TrialPlan, 'treatments'>): readonly ChartTreatment[] {
  return treatments
    .map(({ number, name }) => ({ treatment: String(number), label: name }))
    .sort((a, b) => compareNames(a.treatment, b.treatment));
}

/** Means as charts take them; treatments without a value are gaps. */
export function chartMeans(plan: TrialPlan, analysis: TreatmentAnalysis): readonly TreatmentMean[] {
  return chartTreatments(plan).map(({ treatment, label }) => {
    const own = analysis.treatments.find((one) => one.treatment === treatment);
    return {
      treatment,
      label,
      mean: own?.mean ?? null,
      standardError: own?.standardError ?? null,
      low: own?.low ?? null,
      high: own?.high ?? null,
      n: own?.n ?? 0,
      letters: own?.lettersHsd ?? null,
    };
  });
}

export const quantityOf = ({ name, scale }: VariableWords): Quantity => ({ name, unit: scale });

/** 95 for alpha 0.05. */
export const confidencePercent = (alpha: number): number => Number((100 * (1 - alpha)).toPrecision(6));

/** Whether a plan holds a use that no label allows: then every table says so. */
export const isExperimental = ({ applications }: TrialPlan): boolean =>
  applications.some(({ products }) => products.some(({ use }) => use === 'experimental'));
