import { z } from 'zod';
import { plotNameField, treatmentNumberField } from './fields.ts';

/** A piece of ground with one treatment. Row 1, column 1 is the corner the map is drawn from. */
export const plotSchema = z.strictObject({
  /** Its name on map and label, e.g. "203". */
  plot: plotNameField,
  /** Null where the trial has no blocks. */
  block: z.int().min(1).max(999).nullable(),
  treatment: treatmentNumberField,
  row: z.int().min(1).max(999),
  column: z.int().min(1).max(999),
});
export type Plot = z.infer<typeof plotSchema>;

/** More plots than any trial of this kind has: a table beyond it is taken for a mistake. */
export const MOST_PLOTS = 5000;

/** Plots are the same plot when their names differ in letter case only. */
export const plotKey = (plot: string): string => plot.toUpperCase();
