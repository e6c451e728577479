import * as z from 'zod/mini';
import { id, instant, person } from './common.ts';

/** One change of something a person decides: old value, new value, who, when, why. Never changed, never removed. */
export const auditEntryRecord = z.object({
  id,
  at: instant,
  by: person,
  /** Table and key of what changed. */
  subject: z.string(),
  subjectId: id,
  /** The field, or null for the record as a whole. */
  field: z.nullable(z.string()),
  before: z.unknown(),
  after: z.unknown(),
  reason: z.nullable(z.string()),
});

/** A setting of the program, by name. */
export const settingRecord = z.object({ name: z.string().check(z.minLength(1)), value: z.unknown() });
