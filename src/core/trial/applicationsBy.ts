import type { CalendarDay } from './calendarDay.ts';
import type { TrialPlan } from './trialPlan.ts';

/** How far a treatment's applications are on a day. */
export interface ApplicationProgress {
  /** Done on the day or before. */
  readonly done: number;
  /** All that the plan holds, those left out not counted. */
  readonly total: number;
}

/** Applications done of those planned, by treatment number, on a day. Treatments without any have 0 of 0. */
export function applicationsBy(
  { treatments, applications }: Pick<TrialPlan, 'treatments' | 'applications'>,
  day: CalendarDay,
): ReadonlyMap<number, ApplicationProgress> {
  const found = new Map(treatments.map(({ number }) => [number, { done: 0, total: 0 }]));
  for (const { treatments: treated, progress } of applications) {
    if (progress.state === 'left-out') continue;
    for (const treatment of treated) {
      const own = found.get(treatment);
      if (!own) continue;
      own.total += 1;
      if (progress.state === 'done' && progress.date <= day) own.done += 1;
    }
  }
  return found;
}

/** Whether a treatment's applications are all still to come: its plots are then untreated, whatever its name says. */
export const isStillToCome = ({ done, total }: ApplicationProgress): boolean => total > 0 && done === 0;
