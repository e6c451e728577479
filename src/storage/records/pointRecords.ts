import * as z from 'zod/mini';
import type { PointCall } from '../../core/point-grid/pointCall.ts';
import type { PointSet } from '../../core/point-grid/pointSet.ts';
import { count, id, instant, person, photoPoint } from './common.ts';

/** Points laid over one photo by a seeded design. */
export const pointSetRecord = z.object({
  id,
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
  place: z.nullable(z.int()),
  ratingDate: z.iso.date(),
  observer: z.string(),
  /** Points called as each class. */
  hits: z.array(z.object({ classId: id, points: count })),
  /** Points looked at without a verdict. */
  indeterminate: count,
  /** How the points lay, in words. */
  design: z.string(),
  enteredAt: instant,
});
export type FieldCountRecord = z.infer<typeof fieldCountRecord>;

/** What one observer made of rendered photos whose truth is known. */
export const observerTestRecord = z.object({
  id,
  trialId: z.nullable(id),
  observer: z.string().check(z.minLength(1)),
  finishedAt: instant,
  /** As core/point-grid/observerAgreement.ts answers, with what was shown. */
  result: z.looseObject({}),
});
export type ObserverTestRecord = z.infer<typeof observerTestRecord>;
