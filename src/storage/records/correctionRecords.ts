import * as z from 'zod/mini';
import {
  bytes,
  count,
  fraction,
  id,
  instant,
  nonNegative,
  person,
  photoPoint,
  positiveInt,
  sha256,
} from './common.ts';

/** What hands changed on one photo's mask, as a layer of its own over the automatic mask. Kept for ever. */
export const correctionRecord = z.object({
  photoId: id,
  /** The serialised layer; it carries its own magic number and version. */
  layer: bytes,
  /** What the layer's entries mean, from 1; only ever longer. Patches of the photo mean the same. */
  classIds: z.array(id),
  /** Counts every change, so that a tab that shows an older state is told apart. */
  revision: positiveInt,
  /** 1 while no corrected figure has been made of this layer. */
  figureDue: z.optional(z.literal(1)),
  changedAt: instant,
});
export type CorrectionRecord = z.infer<typeof correctionRecord>;

/** One gesture as an invertible patch of the layer: what undo and redo run on, across reloads. */
export const correctionPatchRecord = z.object({
  photoId: id,
  /** Counts the gestures of the photo from 1. */
  sequence: positiveInt,
  /** Which tool made it. */
  gesture: z.string(),
  patch: bytes,
  undone: z.boolean(),
  by: person,
  at: instant,
  reason: z.nullable(z.string()),
});
export type CorrectionPatchRecord = z.infer<typeof correctionPatchRecord>;

/** Painted by hand to teach a model. */
export const strokeRecord = z.object({
  id,
  photoId: id,
  classId: id,
  /** 0 with one point: a single labelled pixel. */
  radiusPx: nonNegative,
  points: z.array(photoPoint).check(z.minLength(1)),
  by: person,
  at: instant,
});

export type StrokeRecord = z.infer<typeof strokeRecord>;

/** A taught model. Its id is the SHA-256 of its content. */
export const modelRecord = z.object({
  id: sha256,
  trialId: z.nullable(id),
  ratingDate: z.nullable(z.iso.date()),
  /** The cover-model document as it is exported; its own reader checks it. */
  content: z.looseObject({ type: z.literal('cover-model'), version: positiveInt }),
  taughtAt: instant,
  by: person,
  /** How strokes held back were called by the others; left out where none could be, and before this was kept. */
  agreement: z.optional(
    z.object({
      cells: count,
      /** 0..1 */
      share: fraction,
    }),
  ),
});
export type ModelRecord = z.infer<typeof modelRecord>;
