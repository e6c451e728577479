import type { TemperatureWindow } from './application.ts';
import { addDays, type CalendarDay, daysBetween } from './calendarDay.ts';
import { type ResolvedDay, resolveTimings, type WaitingFor } from './resolveTimings.ts';
import type { TrialPlan } from './trialPlan.ts';
import { meanTemperature, type WeatherDay } from './weather.ts';

/** One line of the calendar: an application or a rating, and how it stands on a given day. */
export interface CalendarEntry {
  readonly kind: 'application' | 'rating';
  readonly id: string;
  /** Planned or done; null while it waits or where it was left out. */
  readonly day: CalendarDay | null;
  readonly firstDay: CalendarDay | null;
  readonly lastDay: CalendarDay | null;
  readonly state: CalendarState;
  /** Days from today to its planned day, negative when past; null without one. */
  readonly inDays: number | null;
  readonly waitingFor: WaitingFor | null;
  readonly temperature: TemperatureVerdict | null;
}

/**
 * `in-window`: today lies within its days, but is not the planned day itself; `due`: today is the planned day;
 * `overdue`: its last day has passed.
 */
export type CalendarState = 'done' | 'left-out' | 'waiting' | 'coming' | 'in-window' | 'due' | 'overdue';

/** The user's own temperature window against the weather rows that are there. */
export type TemperatureVerdict =
  | { readonly verdict: 'unknown'; readonly window: TemperatureWindow }
  | {
      readonly verdict: 'below' | 'inside' | 'above';
      readonly window: TemperatureWindow;
      readonly meanC: number;
      readonly day: CalendarDay;
    };

/**
 * All applications and ratings in the order of their days, those without a day last.
 *
 * Temperatures are judged on the day of what is done, else today, else (no row for today yet) yesterday, which is named.
 */
export function trialCalendar(
  plan: TrialPlan,
  today: CalendarDay,
  weather: readonly WeatherDay[] = [],
): CalendarEntry[] {
  const timings = resolveTimings(plan);
  const applications = plan.applications.map(({ id, windowDays, temperatureWindow }) => {
    const entry = entryOf('application', id, timings.applications.get(id)!, windowDays, today);
    const open = entry.state !== 'waiting' && entry.state !== 'left-out' && entry.state !== 'coming';
    if (!temperatureWindow || !open) return entry;
    const days = entry.state === 'done' ? [entry.day!] : [today, addDays(today, -1)];
    return { ...entry, temperature: temperatureVerdict(temperatureWindow, days, weather) };
  });
  const ratings = plan.ratings.map(({ id, windowDays }) =>
    entryOf('rating', id, timings.ratings.get(id)!, windowDays, today),
  );
  return [...applications, ...ratings].sort((a, b) => (a.day ?? '9999').localeCompare(b.day ?? '9999'));
}

function entryOf(
  kind: CalendarEntry['kind'],
  id: string,
  resolved: ResolvedDay,
  windowDays: { readonly before: number; readonly after: number },
  today: CalendarDay,
): CalendarEntry {
  const undated = { kind, id, day: null, firstDay: null, lastDay: null, inDays: null, temperature: null };
  if (resolved.state === 'left-out') return { ...undated, state: 'left-out', waitingFor: null };
  if (resolved.state === 'waiting') return { ...undated, state: 'waiting', waitingFor: resolved.for };
  const { day } = resolved;
  const inDays = daysBetween(today, day);
  const dated = { kind, id, day, inDays, waitingFor: null, temperature: null };
  if (resolved.state === 'done') return { ...dated, firstDay: day, lastDay: day, state: 'done' };
  const firstDay = addDays(day, -windowDays.before);
  const lastDay = addDays(day, windowDays.after);
  return { ...dated, firstDay, lastDay, state: openState(today, firstDay, day, lastDay) };
}

function openState(
  today: CalendarDay,
  firstDay: CalendarDay,
  day: CalendarDay,
  lastDay: CalendarDay,
): CalendarState {
  if (today < firstDay) return 'coming';
  if (today > lastDay) return 'overdue';
  return today === day ? 'due' : 'in-window';
}

function temperatureVerdict(
  window: TemperatureWindow,
  days: readonly CalendarDay[],
  weather: readonly WeatherDay[],
): TemperatureVerdict {
  for (const day of days) {
    const meanC = meanTemperature(weather, window.of, day, window.meanOfDays);
    if (meanC === null) continue;
    const verdict = meanC < window.leastC ? 'below' : meanC > window.mostC ? 'above' : 'inside';
    return { verdict, window, meanC, day };
  }
  return { verdict: 'unknown', window };
}
