import type { OpenPart } from './sessionPart.ts';

/** Whether there is a trial to walk, and the day in the field that was left last. */
export interface FieldReturn {
  readonly hasTrial: boolean;
  readonly day: {
    readonly ratingDate: string;
    /** The plot whose photo was awaited when the page was left; null where none was. */
    readonly awaited: string | null;
  } | null;
}

/** A day that was left longer ago is over. */
const RECENT_MS = 20 * 3_600_000;

export const openFieldReturn: OpenPart<FieldReturn> = async ({ store, parts }) => {
  const [trial] = await store.trials.all();
  if (!trial) return { hasTrial: false, day: null };
  const hasTrial = (trial.plan.plots?.length ?? 0) > 0;
  const [last] = (await store.field.days(trial.id)).filter(({ plot }) => plot !== '');
  const recent = last && parts.now().getTime() - Date.parse(last.changedAt) < RECENT_MS;
  return {
    hasTrial,
    day: recent ? { ratingDate: last.ratingDate, awaited: last.awaited?.plot ?? null } : null,
  };
};
