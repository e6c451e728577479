import { resolveTimings } from '../../core/trial/resolveTimings.ts';
import type { TrialPlan } from '../../core/trial/trialPlan.ts';
import type { ApplicationMark } from './chartTypes.ts';

/** Applications with a day, one mark for each treatment that gets them; those left out have none. */
export function applicationMarks(plan: TrialPlan): readonly ApplicationMark[] {
  const days = resolveTimings(plan).applications;
  return plan.applications.flatMap(({ id, treatments, description }) => {
    const resolved = days.get(id);
    if (!resolved || !('day' in resolved)) return [];
    return treatments.map((treatment) => ({
      treatment: String(treatment),
      date: resolved.day,
      name: description,
      done: resolved.state === 'done',
    }));
  });
}
