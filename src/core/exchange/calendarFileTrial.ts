import { calendarFileText } from '../text/trial.ts';
import type { CalendarEntry } from '../trial/trialCalendar.ts';
import { trialCalendar } from '../trial/trialCalendar.ts';
import type { TrialPlan } from '../trial/trialPlan.ts';
import { type CalendarFileEvent, writeCalendarFile } from './calendarFile.ts';

/**
 * The trial's applications and ratings that have a day, as a calendar file. Those left out are left out.
 *
 * @param now instant of writing, UTC, ISO 8601
 */
export function writeTrialCalendarFile(plan: TrialPlan, now: string): string {
  const events = trialCalendar(plan, now.slice(0, 10)).flatMap((entry) => eventOf(entry, plan));
  return writeCalendarFile({ name: plan.trial.name, events, writtenAt: now });
}

function eventOf(entry: CalendarEntry, plan: TrialPlan): CalendarFileEvent[] {
  const { kind, id, day, firstDay, lastDay, state } = entry;
  if (day === null) return [];
  const application = kind === 'application' ? plan.applications.find((one) => one.id === id) : undefined;
  const lines = [
    state === 'done' ? calendarFileText.done(day) : '',
    firstDay !== lastDay ? calendarFileText.window(firstDay!, lastDay!) : '',
    application?.products.some(({ use }) => use === 'experimental') ? calendarFileText.experimental : '',
    application ? calendarFileText.caution : '',
  ];
  return [
    {
      // ".invalid" can be nobody's domain (RFC 2606), so that the name stays the trial's own.
      uid: `${kind}-${id}.${plan.trial.code}@swardbook.invalid`,
      firstDay: day,
      lastDay: day,
      summary: application
        ? calendarFileText.applicationSummary(id, application.treatments, application.description)
        : calendarFileText.ratingSummary(id),
      description: lines.filter((line) => line !== '').join('\n'),
      category: application ? calendarFileText.applicationCategory : calendarFileText.ratingCategory,
    },
  ];
}
