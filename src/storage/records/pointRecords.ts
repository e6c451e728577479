import * as z from 'zod';
import { id, instant, person, photoPoint } from './common.ts';

/** Points laid over one photo by a seeded design. */
export const pointSetRecord = z.object({
  id,
  photoId: id,
  design: z.enum(['systematic', 'jittered', 'simple-random', 'transects', 'field']),
  seed: z.int().nullable(),
  /** In photo pixels, in the order of the design. */
  points: z.array(photoPoint),
  createdAt: instant,
  by: person,
});

/** What one observer called one point. A point without a call has no record. */
export const pointCallRecord = z.object({
  pointSetId: id,
  pointIndex: z.int().nonnegative(),
  observer: z.string().min(1),
  /** Null: the observer could not tell. */
  classId: id.nullable(),
  at: instant,
});
