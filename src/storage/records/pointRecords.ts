import * as z from 'zod/mini';
import type { PointCall } from '../../core/point-grid/pointCall.ts';
import type { PointSet } from '../../core/point-grid/pointSet.ts';
import type { SamplingDesign } from '../../core/point-grid/samplingDesign.ts';
import { calendarDay, count, fraction, id, instant, person, photoPoint, positiveInt } from './common.ts';

/** A count that was planned for the photos of one rating date: which photos, and how points lie in them. */
export const countPlanRecord = z.object({
  id,
  trialId: z.nullable(id),
  ratingDate: z.nullable(calendarDay),
  design: z.looseObject({ kind: z.string() }) as unknown as z.ZodMiniType<SamplingDesign>,
  /** Draws photos and points. */
  seed: count,
  /** Photos of each treatment, drawn at random; null: every photo of the date. */
  photosPerTreatment: z.nullable(positiveInt),
  /** What the photos were drawn from, and what was left out: those the points do not speak for. */
  drawnFrom: count,
  leftOut: z.object({ withStrokes: count, inReviewQueue: count }),
  createdAt: instant,
  by: person,
});
export type CountPlanRecord = z.infer<typeof countPlanRecord>;

/** Points laid over one photo by a seeded design. */
export const pointSetRecord = z.object({
  id,
  planId: id,
  photoId: id,
  set: z.looseObject({
    seed: z.int(),
    points: z.array(z.looseObject({ id: count })),
  }) as unknown as z.ZodMiniType<PointSet>,
  createdAt: instant,
  by: person,
});
export type PointSetRecord = z.infer<typeof pointSetRecord>;

/** One call of one observer at one point. Calls are only ever added: a later one of the same observer counts. */
export const pointCallRecord = z.object({
  id,
  pointSetId: id,
  pointId: count,
  observer: z.string().check(z.minLength(1)),
  /** Null: the observer looked and could not tell. */
  classId: z.nullable(id),
  at: photoPoint,
  calledAt: instant,
  gapRule: z.looseObject({ kind: z.string() }) as unknown as z.ZodMiniType<PointCall['gapRule']>,
});
export type PointCallRecord = z.infer<typeof pointCallRecord>;

/** Counts of a plot made on the turf itself and typed in. */
export const fieldCountRecord = z.object({
  id,
  trialId: z.nullable(id),
  plot: z.string(),
  place: z.nullable(positiveInt),
  ratingDate: calendarDay,
  observer: z.string().check(z.minLength(1)),
  /** Points called as each class. */
  hits: z.array(z.object({ classId: id, points: count })),
  /** Points looked at without a verdict. */
  indeterminate: count,
  /** How the points lay, in words. */
  design: z.string(),
  enteredAt: instant,
});
export type FieldCountRecord = z.infer<typeof fieldCountRecord>;

/** What one observer made of rendered pictures whose truth is known. */
export const observerTestRecord = z.object({
  id,
  trialId: z.nullable(id),
  observer: z.string().check(z.minLength(1)),
  /** 1 for an observer's first; every observer sees the same points in the same round. */
  round: positiveInt,
  finishedAt: instant,
  pictures: z.array(
    z.object({
      picture: z.string(),
      /** Cover as rated at a glance, before any point was called; in the order of the classes. */
      rated: z.array(fraction),
      /** For each point the class called, by its place in the classes; null: could not tell. */
      called: z.array(z.nullable(count)),
      /** What the point truly shows. */
      truth: z.array(count),
      /** Cover as rendered. */
      trueCover: z.array(fraction),
    }),
  ),
});
export type ObserverTestRecord = z.infer<typeof observerTestRecord>;
