import * as z from 'zod/mini';
import { calendarDay, count, id, instant, person, sha256 } from './common.ts';

/** What a person made of one photo's mask. */
export const reviewRecord = z.object({
  photoId: id,
  verdict: z.enum(['accepted', 'corrected', 'skipped']),
  /** The figure that was looked at; a newer one has not been reviewed. */
  figureId: id,
  by: person,
  at: instant,
});
export type ReviewRecord = z.infer<typeof reviewRecord>;

/** A rating date sealed: the hash says whether anything has changed since. Never changed, never removed. */
export const signOffRecord = z.object({
  id,
  trialId: z.nullable(id),
  ratingDate: calendarDay,
  /** Of core/mask/signOffBytes.ts. */
  sha256,
  /** Photos it covers. */
  photoIds: z.array(id),
  /** How many of them somebody had looked at. */
  lookedAt: count,
  by: z.string().check(z.minLength(1)),
  at: instant,
  /** The sign-off that this one amends; null for the first. */
  amends: z.nullable(id),
  /** Why it was amended. */
  reason: z.nullable(z.string()),
});
export type SignOffRecord = z.infer<typeof signOffRecord>;

/** What a comparison will look at, fixed before treatments show; a later one is an amendment. Never changed, never removed. */
export const declarationRecord = z.object({
  id,
  trialId: id,
  /** The declared analysis; its own reader checks it. */
  declaration: z.looseObject({}),
  by: z.string().check(z.minLength(1)),
  at: instant,
  amends: z.nullable(id),
  reason: z.nullable(z.string()),
});
export type DeclarationRecord = z.infer<typeof declarationRecord>;
