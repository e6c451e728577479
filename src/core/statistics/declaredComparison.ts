import { comparisonTrialOf } from '../exchange/trialPlanComparison.ts';
import type { TrialPlan } from '../trial/trialPlan.ts';
import { type ComparisonOptions, designOf, PRIMARY_AREA, type RatedObservation } from './compareTrial.ts';
import { betterOf, type ComparedVariable, type DeclaredAnalysis, exclusionFrom } from './declaredAnalysis.ts';

/**
 * How a variable of a trial is compared: as declared, and other variables beside the declared one in the same way, without a
 * deciding date of their own.
 */
export function declaredOptions(
  plan: TrialPlan,
  declared: DeclaredAnalysis,
  variable: ComparedVariable,
  observations: readonly RatedObservation[],
): ComparisonOptions {
  const { design, control, sowingDate, firstApplication } = comparisonTrialOf(plan);
  const { transform, alpha, minimumPressure, controlThreshold, when } = declared;
  const isDeclared = JSON.stringify(variable) === JSON.stringify(declared.variable);
  return {
    design: design ?? designOf(observations),
    transform: isDeclared ? transform : 'none',
    alpha,
    control,
    primary: isDeclared ? (when.kind === 'area' ? PRIMARY_AREA : when.ratingDate) : null,
    better: betterOf(variable, declared.classes, plan.ratedVariables),
    percentControl: { minimumPressure: isDeclared ? minimumPressure : 0 },
    firstApplication,
    lengthOfControl:
      isDeclared && controlThreshold !== null && sowingDate !== null
        ? { threshold: controlThreshold, countedFrom: sowingDate }
        : null,
  };
}

/** Observations that the declared exclusions leave in. */
export function withoutExcluded(
  observations: readonly RatedObservation[],
  variable: ComparedVariable,
  declared: Pick<DeclaredAnalysis, 'classes' | 'exclusions'>,
): readonly RatedObservation[] {
  if (declared.exclusions.length === 0) return observations;
  return observations.filter((observation) => exclusionFrom(variable, observation, declared) === null);
}
