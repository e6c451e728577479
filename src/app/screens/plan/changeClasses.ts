import type { CoverClass } from '../../../core/trial/coverClass.ts';
import type { TrialPlan } from '../../../core/trial/trialPlan.ts';

/** An edit of the plan that changes its classes and nothing else. */
export const changeClasses =
  (change: (classes: readonly CoverClass[]) => CoverClass[]) =>
  (plan: TrialPlan): TrialPlan => ({
    ...plan,
    trial: { ...plan.trial, classes: change(plan.trial.classes) },
  });
