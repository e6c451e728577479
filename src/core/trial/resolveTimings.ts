import type { Application } from './application.ts';
import { addDays, type CalendarDay } from './calendarDay.ts';
import type { Rating } from './rating.ts';
import { signedDays, type Timing } from './timing.ts';

/** The day of an application or rating, or why it has none yet. */
export type ResolvedDay =
  /** It was done on this day: no change of plan moves it. */
  | { readonly state: 'done'; readonly day: CalendarDay }
  | { readonly state: 'planned'; readonly day: CalendarDay }
  | { readonly state: 'left-out' }
  | { readonly state: 'waiting'; readonly for: WaitingFor };

export type WaitingFor =
  | { readonly code: 'sowing-date' }
  | { readonly code: 'growth-stage'; readonly stage: string }
  /** The application it follows has no day itself, or was left out. */
  | { readonly code: 'application'; readonly application: string }
  | { readonly code: 'unknown-application'; readonly application: string }
  /** Applications that wait for each other in a ring; the ids in order, each planned by the next. */
  | { readonly code: 'ring'; readonly applications: readonly string[] };

export interface ResolvedTimings {
  readonly applications: ReadonlyMap<string, ResolvedDay>;
  readonly ratings: ReadonlyMap<string, ResolvedDay>;
}

interface PlannedThings {
  readonly trial: { readonly sowing: { readonly date: CalendarDay | null } };
  readonly applications: readonly Application[];
  readonly ratings: readonly Rating[];
}

/**
 * Makes days of all timings. A planned day follows the sowing date and the applications before it; it follows the day an
 * application was really done on as soon as there is one. What is done keeps its own day.
 */
export function resolveTimings({ trial, applications, ratings }: PlannedThings): ResolvedTimings {
  const sowingDate = trial.sowing.date;
  const byId = new Map(applications.map((application) => [application.id, application]));
  const resolved = new Map<string, ResolvedDay>();

  function dayOfTiming(timing: Timing, trail: readonly string[]): ResolvedDay {
    switch (timing.kind) {
      case 'date':
        return { state: 'planned', day: timing.date };
      case 'from-sowing':
        if (sowingDate === null) return { state: 'waiting', for: { code: 'sowing-date' } };
        return { state: 'planned', day: addDays(sowingDate, signedDays(timing)) };
      case 'growth-stage':
        return timing.expectedDate === null
          ? { state: 'waiting', for: { code: 'growth-stage', stage: timing.stage } }
          : { state: 'planned', day: timing.expectedDate };
      case 'from-application': {
        const { application } = timing;
        const before = byId.get(application);
        if (!before) return { state: 'waiting', for: { code: 'unknown-application', application } };
        const start = dayOfApplication(before, trail);
        if (start.state === 'done' || start.state === 'planned') {
          return { state: 'planned', day: addDays(start.day, signedDays(timing)) };
        }
        const ring = start.state === 'waiting' && start.for.code === 'ring';
        return ring ? start : { state: 'waiting', for: { code: 'application', application } };
      }
    }
  }

  /** `trail`: the applications whose days are being worked out, each planned by the next one. */
  function dayOfApplication(application: Application, trail: readonly string[]): ResolvedDay {
    const { id, progress } = application;
    if (progress.state === 'done') return { state: 'done', day: progress.date };
    if (progress.state === 'left-out') return { state: 'left-out' };
    const known = resolved.get(id);
    if (known) return known;
    const first = trail.indexOf(id);
    if (first >= 0) return { state: 'waiting', for: { code: 'ring', applications: trail.slice(first) } };
    const day = dayOfTiming(application.timing, [...trail, id]);
    resolved.set(id, day);
    return day;
  }

  return {
    applications: new Map(
      applications.map((application) => [application.id, dayOfApplication(application, [])]),
    ),
    ratings: new Map(
      ratings.map((rating) => [
        rating.id,
        rating.doneOn === null
          ? dayOfTiming(rating.timing, [])
          : { state: 'done' as const, day: rating.doneOn },
      ]),
    ),
  };
}
