import * as z from 'zod';
import { bytes, id, instant, person, photoPoint } from './common.ts';

/** What hands changed on one photo's mask, as a layer of its own over the automatic mask. Kept for ever. */
export const correctionRecord = z.object({
  photoId: id,
  /** The serialised layer; it carries its own magic number and version. */
  layer: bytes,
  changedAt: instant,
});

/** One gesture as an invertible patch of the layer: what undo and redo run on, across reloads. */
export const correctionPatchRecord = z.object({
  photoId: id,
  /** Counts the gestures of the photo from 1. */
  sequence: z.int().positive(),
  /** Which tool made it. */
  gesture: z.string(),
  patch: bytes,
  undone: z.boolean(),
  by: person,
  at: instant,
  reason: z.string().nullable(),
});

/** Painted by hand to teach a model. */
export const strokeRecord = z.object({
  id,
  photoId: id,
  classId: id,
  /** 0 with one point: a single labelled pixel. */
  radiusPx: z.number().nonnegative(),
  points: z.array(photoPoint).min(1),
  by: person,
  at: instant,
});

/** A taught model. Its id is the SHA-256 of its content. */
export const modelRecord = z.object({
  id: z.string().regex(/^[0-9a-f]{64}$/),
  trialId: id.nullable(),
  ratingDate: z.iso.date().nullable(),
  /** The cover-model document as it is exported; its own reader checks it. */
  content: z.looseObject({ type: z.literal('cover-model'), version: z.int().positive() }),
  taughtAt: instant,
  by: person,
});
