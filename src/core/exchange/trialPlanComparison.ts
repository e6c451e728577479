import { plotKey } from '../trial/plot.ts';
import { resolveTimings } from '../trial/resolveTimings.ts';
import { adjacentTreatments } from '../trial/treatment.ts';
import type { TrialPlan } from '../trial/trialPlan.ts';
import type { ComparisonTrial } from './observationTableTrial.ts';

/**
 * What a comparison takes from a plan: the same as it would take from a trial file that says the same.
 *
 * An untreated control beside the trial is no control of its analysis. The first application is the earliest one with a product that is done or has a day; what was left out does not count.
 */
export function comparisonTrialOf(plan: TrialPlan): ComparisonTrial {
  const { design } = plan.layout ?? { design: 'own' };
  const control = plan.treatments.find(({ untreatedControl }) => untreatedControl === 'included');
  const timings = resolveTimings(plan).applications;
  const days = plan.applications.flatMap(({ id, products }) => {
    const resolved = timings.get(id)!;
    return products.length > 0 && 'day' in resolved ? [resolved.day] : [];
  });
  return {
    design: design === 'own' ? null : design,
    control: control ? String(control.number) : null,
    beside: new Set([...adjacentTreatments(plan.treatments)].map(String)),
    sowingDate: plan.trial.sowing.date,
    firstApplication: days.sort()[0] ?? null,
    classes: plan.trial.classes.map(({ id }) => id),
    plots: new Map(
      plan.plots.map(({ plot, treatment, block, row, column }) => [
        plotKey(plot),
        {
          treatment: String(treatment),
          block: block === null ? null : String(block),
          row: String(row),
          column: String(column),
        },
      ]),
    ),
  };
}
