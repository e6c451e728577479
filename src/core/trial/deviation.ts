import { z } from 'zod';
import { dayField, idField, nameField, plotNameField } from './fields.ts';

/** Something that went otherwise than planned and that readers of the report should know. */
export const deviationSchema = z.strictObject({
  id: idField,
  /** Null where the whole trial is meant. */
  plot: plotNameField.nullable(),
  date: dayField.nullable(),
  what: nameField,
  /** What it did or may have done to the results. */
  effect: nameField,
  reason: nameField,
  by: nameField,
});
/** A plot, or a date or variable of it, that analyses leave out. It stays in the record and in the report. */
export const exclusionSchema = z.strictObject({
  id: idField,
  plot: plotNameField,
  /** Null: all rating dates. */
  ratingDate: dayField.nullable(),
  /** Class of cover or rated variable; null: all of them. */
  variable: nameField.nullable(),
  reason: nameField,
  by: nameField,
});
export type Exclusion = z.infer<typeof exclusionSchema>;

/** The exclusion that keeps an observation out of the analysis; null if none does. */
export function exclusionOf(
  observation: { readonly plot: string; readonly ratingDate: string; readonly variable: string },
  exclusions: readonly Exclusion[],
): Exclusion | null {
  const { plot, ratingDate, variable } = observation;
  return (
    exclusions.find(
      (one) =>
        one.plot.toUpperCase() === plot.toUpperCase() &&
        (one.ratingDate === null || one.ratingDate === ratingDate) &&
        (one.variable === null || one.variable === variable),
    ) ?? null
  );
}
