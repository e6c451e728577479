import * as z from 'zod/mini';
import { calendarDay, id, instant, person, positiveInt } from './common.ts';

/** A place of a plot that was not photographed on a rating date, and why. A photo taken all the same counts. */
export const skippedPlaceRecord = z.object({
  trialId: id,
  ratingDate: calendarDay,
  plot: id,
  place: positiveInt,
  reason: z.string().check(z.minLength(1)),
  by: person,
  at: instant,
});
export type SkippedPlaceRecord = z.infer<typeof skippedPlaceRecord>;
