import type { Application } from '../trial/application.ts';
import type { CalendarDay } from '../trial/calendarDay.ts';
import type { Rating } from '../trial/rating.ts';
import { resolveTimings } from '../trial/resolveTimings.ts';
import type { TrialPlan } from '../trial/trialPlan.ts';

type Progress = Application['progress'];

/** One application as a report tells it: what was meant, and what became of it. */
export interface ReportApplication
  extends Pick<
    Application,
    'id' | 'treatments' | 'timing' | 'carrierVolume' | 'equipment' | 'nozzle' | 'pressure'
  > {
  /** Null in a copy without names. */
  readonly description: string | null;
  /** Null in a copy without names. */
  readonly products: Application['products'] | null;
  /** The day it was done, or is planned for; null without one. */
  readonly day: CalendarDay | null;
  readonly progress: Progress;
}

/** One line of what was done, by day. */
export type ConductEntry =
  | { readonly kind: 'sowing'; readonly day: CalendarDay }
  | {
      readonly kind: 'application';
      readonly day: CalendarDay;
      readonly id: string;
      readonly description: string | null;
      readonly treatments: readonly number[];
      readonly done: Extract<Progress, { state: 'done' }>;
    }
  | {
      readonly kind: 'rating';
      readonly day: CalendarDay;
      /** Null where nothing was noted. */
      readonly conditions: Rating['conditions'];
      /** Measured photos of that day. */
      readonly photos: number;
      /** Plots scored by eye on that day. */
      readonly scoredPlots: number;
    };

/** Applications in the order of their days, those without a day last. */
export function reportApplications(plan: TrialPlan, withNames: boolean): ReportApplication[] {
  const days = resolveTimings(plan).applications;
  return plan.applications
    .map(({ id, treatments, timing, carrierVolume, equipment, nozzle, pressure, progress, ...rest }) => {
      const resolved = days.get(id);
      return {
        id,
        treatments,
        timing,
        carrierVolume,
        equipment,
        nozzle,
        pressure,
        progress,
        description: withNames ? rest.description : null,
        products: withNames ? rest.products : null,
        day: resolved && 'day' in resolved ? resolved.day : null,
      };
    })
    .sort((a, b) => ((a.day ?? '9999') < (b.day ?? '9999') ? -1 : Number(a.day !== b.day)));
}

/** What is recorded as done, in the order of its days. */
export function conductRecord(
  plan: TrialPlan,
  applications: readonly ReportApplication[],
  ratingDays: readonly { readonly day: CalendarDay; readonly photos: number; readonly scoredPlots: number }[],
): ConductEntry[] {
  const days = resolveTimings(plan).ratings;
  const conditionsOf = new Map(
    plan.ratings.flatMap(({ id, conditions }) => {
      const resolved = days.get(id);
      return resolved && 'day' in resolved ? [[resolved.day, conditions] as const] : [];
    }),
  );
  const sowing = plan.trial.sowing.date;
  const entries: ConductEntry[] = [
    ...(sowing === null ? [] : [{ kind: 'sowing' as const, day: sowing }]),
    ...applications.flatMap(({ id, description, treatments, progress }) =>
      progress.state === 'done'
        ? [{ kind: 'application' as const, day: progress.date, id, description, treatments, done: progress }]
        : [],
    ),
    ...ratingDays.map(({ day, ...rest }) => ({
      kind: 'rating' as const,
      day,
      conditions: conditionsOf.get(day) ?? null,
      ...rest,
    })),
  ];
  return entries.sort((a, b) => (a.day < b.day ? -1 : Number(a.day > b.day)));
}
