import * as z from 'zod/mini';
import { count, id, instant, person, photoPoint } from './common.ts';

/** Points laid over one photo by a seeded design. */
export const pointSetRecord = z.object({
  id,
  photoId: id,
  design: z.enum(['systematic', 'jittered', 'simple-random', 'transects', 'field']),
  seed: z.nullable(z.int()),
  /** In photo pixels, in the order of the design. */
  points: z.array(photoPoint),
  createdAt: instant,
  by: person,
});

/** What one observer called one point. A point without a call has no record. */
export const pointCallRecord = z.object({
  pointSetId: id,
  pointIndex: count,
  observer: z.string().check(z.minLength(1)),
  /** Null: the observer could not tell. */
  classId: z.nullable(id),
  at: instant,
});
