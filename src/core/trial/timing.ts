import { z } from 'zod';
import { dayField, idField, nameField } from './fields.ts';

const distance = {
  amount: z.int().min(0).max(2000),
  unit: z.enum(['days', 'weeks']),
  side: z.enum(['before', 'after']),
};

/** When something is planned, in the words it was planned in. `resolveTimings` makes days of it. */
export const timingSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('date'), date: dayField }),
  z.strictObject({ kind: z.literal('from-sowing'), ...distance }),
  z.strictObject({ kind: z.literal('from-application'), application: idField, ...distance }),
  z.strictObject({
    kind: z.literal('growth-stage'),
    /** As the user writes it, e.g. a two-digit stage of the BBCH scale, "21". */
    stage: nameField,
    /** When the user expects it; null while nobody can say. */
    expectedDate: dayField.nullable(),
  }),
]);
export type Timing = z.infer<typeof timingSchema>;

/** Whole days of a distance, negative for `before`. */
export function signedDays(distance: {
  readonly amount: number;
  readonly unit: 'days' | 'weeks';
  readonly side: 'before' | 'after';
}): number {
  const days = distance.amount * (distance.unit === 'weeks' ? 7 : 1);
  return distance.side === 'before' ? 0 - days : days;
}
