import * as z from 'zod/mini';
import type { Score } from '../../core/trial/rating.ts';
import type { TrialPlan } from '../../core/trial/trialPlan.ts';
import type { Walk } from '../../core/trial/walkingOrder.ts';
import type { WeatherDay } from '../../core/trial/weather.ts';
import { calendarDay, id, instant } from './common.ts';

/*
 * A trial plan is one record, checked field by field by trialPlanSchema where it is opened. Here only its type and
 * version are looked at: the whole schema would be part of the first load of people who never plan a trial.
 */
const trialPlan = z.looseObject({
  type: z.literal('trial-plan'),
  version: z.literal(1),
}) as unknown as z.ZodMiniType<TrialPlan>;

/** How photos find their plots in a trial. */
export const photoRules = z.object({
  fileNamePatterns: z.array(z.string()),
  walk: z.object({
    along: z.enum(['rows', 'columns']),
    turn: z.enum(['there-and-back', 'same-way']),
    startRow: z.enum(['first', 'last']),
    startColumn: z.enum(['first', 'last']),
  }) satisfies z.ZodMiniType<Walk>,
  /** The person vouches that plots were walked in this order, one photo at each place. */
  orderTrusted: z.boolean(),
  /** The rating date of photos that say none themselves; left out or null: they wait for a person. */
  dateOfUndated: z.optional(z.nullable(calendarDay)),
});
export type PhotoRules = z.infer<typeof photoRules>;

export const trialRecord = z.object({
  id,
  plan: trialPlan,
  photoRules,
  createdAt: instant,
  changedAt: instant,
});
export type TrialRecord = z.infer<typeof trialRecord>;

/** One score of one plot by one person; the empty name stands for nobody named. */
export const scoreRecord = z.object({
  trialId: id,
  variable: id,
  plot: id,
  ratingDate: calendarDay,
  rater: z.string(),
  /** Null: looked at and not to be scored, which is not 0. */
  value: z.nullable(z.number()),
  changedAt: instant,
}) satisfies z.ZodMiniType<Omit<Score, 'rater'>>;
export type ScoreRecord = z.infer<typeof scoreRecord>;

const reading = z.nullable(z.number());

/** Daily weather at the site of a trial. */
export const weatherRecord = z.object({
  trialId: id,
  days: z.array(
    z.object({
      day: calendarDay,
      airC: reading,
      airLeastC: reading,
      airMostC: reading,
      soilC: reading,
      rainMm: reading,
    }) satisfies z.ZodMiniType<WeatherDay>,
  ),
  changedAt: instant,
});
