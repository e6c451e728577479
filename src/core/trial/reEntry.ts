import { addDays, type CalendarDay } from './calendarDay.ts';
import type { TrialPlan } from './trialPlan.ts';

/** The last application done on a plot, and from when the user's own re-entry time lets people on it again. */
export interface LastApplication {
  readonly application: string;
  readonly day: CalendarDay;
  readonly finishedAt: string | null;
  readonly products: readonly string[];
  readonly reEntryHours: number | null;
  /** Local time, day and HH:MM; null where no re-entry time was entered: then the label has to be asked. */
  readonly enterFrom: { readonly day: CalendarDay; readonly time: string } | null;
}

/**
 * What to show before anybody steps on the plots of some treatments: of the applications done, the one that keeps people off
 * longest. One of the latest day without a re-entry time comes before all, since nobody knows how long it keeps them off.
 *
 * An application without a clock time counts from the end of its day. Hours are counted on the wall clock: on the day
 * clocks change the answer can be an hour off, and the label decides.
 *
 * @param treatments numbers of the plots to be stepped on; all treatments where plots lie side by side
 * @returns null where none was done up to `today`
 */
export function lastApplication(
  plan: TrialPlan,
  treatments: readonly number[],
  today: CalendarDay,
): LastApplication | null {
  const done = plan.applications.flatMap(({ id, progress, products, reEntryHours, treatments: treated }) => {
    if (progress.state !== 'done' || progress.date > today) return [];
    if (products.length === 0 || !treated.some((number) => treatments.includes(number))) return [];
    const { date: day, finishedAt } = progress;
    const names = products.map(({ name }) => name);
    const enterFrom = reEntryHours === null ? null : after(day, finishedAt ?? '24:00', reEntryHours);
    return [{ application: id, day, finishedAt, products: names, reEntryHours, enterFrom }];
  });
  if (done.length === 0) return null;
  const latestDay = done
    .map(({ day }) => day)
    .sort()
    .at(-1);
  const rank = ({ day, enterFrom }: LastApplication) => {
    if (enterFrom === null) return day === latestDay ? '9999' : `${day} 24:00`;
    return `${enterFrom.day} ${enterFrom.time}`;
  };
  return done.sort((a, b) => rank(a).localeCompare(rank(b)) || a.day.localeCompare(b.day)).at(-1)!;
}

/**
 * Whether the user's own re-entry time has passed.
 *
 * @param time HH:MM on the wall clock
 * @returns `unknown` where no re-entry time was entered
 */
export function reEntryAt(
  { enterFrom }: LastApplication,
  day: CalendarDay,
  time: string,
): 'passed' | 'not-passed' | 'unknown' {
  if (enterFrom === null) return 'unknown';
  return `${enterFrom.day} ${enterFrom.time}` <= `${day} ${time}` ? 'passed' : 'not-passed';
}

function after(day: CalendarDay, time: string, hours: number) {
  const minutes = Number(time.slice(0, 2)) * 60 + Number(time.slice(3)) + Math.ceil(hours * 60);
  const ofDay = minutes % 1440;
  const pad = (value: number) => String(value).padStart(2, '0');
  return {
    day: addDays(day, Math.floor(minutes / 1440)),
    time: `${pad(Math.floor(ofDay / 60))}:${pad(ofDay % 60)}`,
  };
}
