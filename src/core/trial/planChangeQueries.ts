import type { CalendarDay } from './calendarDay.ts';
import type { TrialPlan } from './trialPlan.ts';

/** A change that makes figures before and after it differ in meaning, to be confirmed with a reason. */
export type PlanChangeQuery =
  | { readonly code: 'gap-rule-after-rating'; readonly firstRating: CalendarDay }
  | { readonly code: 'class-removed-after-rating'; readonly class: string; readonly firstRating: CalendarDay }
  | {
      readonly code: 'treatment-moved-after-application';
      readonly plot: string;
      readonly application: string;
    };

/**
 * What to ask before a change of a plan is kept: the rule for small gaps is settled before the first rating, and a plot that
 * was treated has had its treatment.
 */
export function planChangeQueries(before: TrialPlan, after: TrialPlan): PlanChangeQuery[] {
  const queries: PlanChangeQuery[] = [];
  const firstRating = before.ratings.flatMap(({ doneOn }) => doneOn ?? []).sort()[0];
  if (firstRating !== undefined) {
    const rule = (plan: TrialPlan) => JSON.stringify(Object.entries(plan.trial.gapRule).sort());
    if (rule(before) !== rule(after)) queries.push({ code: 'gap-rule-after-rating', firstRating });
    for (const { id } of before.trial.classes) {
      if (!after.trial.classes.some((one) => one.id === id)) {
        queries.push({ code: 'class-removed-after-rating', class: id, firstRating });
      }
    }
  }
  const treatmentBefore = new Map(before.plots.map(({ plot, treatment }) => [plot, treatment]));
  for (const { plot, treatment } of after.plots) {
    const old = treatmentBefore.get(plot);
    if (old === undefined || old === treatment) continue;
    const done = before.applications.find(
      ({ progress, treatments }) =>
        progress.state === 'done' && (treatments.includes(old) || treatments.includes(treatment)),
    );
    if (done) queries.push({ code: 'treatment-moved-after-application', plot, application: done.id });
  }
  return queries;
}
