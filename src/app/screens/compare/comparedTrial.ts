import type { DeclaredAnalysis } from '../../../core/statistics/declaredAnalysis.ts';
import {
  type ComparedVariable,
  comparedVariables,
  variableKey,
} from '../../../core/statistics/declaredAnalysis.ts';
import { type VariableWords, variableWords } from '../../../core/text/compare.ts';
import type { TrialPlan } from '../../../core/trial/trialPlan.ts';
import {
  type ComparisonState,
  comparisonName,
  type PlotsCompared,
  type TrialComparison,
  type VariableComparison,
} from '../../session/comparison.ts';
import type { OpenTrial } from '../../session/trialState.ts';

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
