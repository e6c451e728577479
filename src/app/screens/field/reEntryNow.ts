import { type LastApplication, lastApplication, reEntryAt } from '../../../core/trial/reEntry.ts';
import type { TrialPlan } from '../../../core/trial/trialPlan.ts';
import { today } from '../../components/today.ts';

/** What is known of stepping on the plots at this moment. */
export interface ReEntryNow {
  readonly last: LastApplication;
  readonly at: ReturnType<typeof reEntryAt>;
}

/**
 * Whether the plots may be stepped on by the re-entry times the user entered. All treatments count, for whoever walks to one
 * plot crosses others, and the answer then gives no treatment away.
 *
 * @returns null where no application is noted as done
 */
export function reEntryNow(plan: TrialPlan, now: Date): ReEntryNow | null {
  const treatments = plan.treatments.map(({ number }) => number);
  const last = lastApplication(plan, treatments, today(now));
  if (!last) return null;
  const pad = (value: number) => String(value).padStart(2, '0');
  const time = `${pad(now.getHours())}:${pad(now.getMinutes())}`;
  return { last, at: reEntryAt(last, today(now), time) };
}
