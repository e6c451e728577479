import { z } from 'zod';
import { dayField, fault, idField, nameField, notesField, plotNameField } from './fields.ts';
import { timingSchema } from './timing.ts';

/** How the turf and the light were on a rating date, noted once for all plots. */
export const ratingConditionsSchema = z.strictObject({
  daysSinceMowing: z.int().min(0).max(365).nullable(),
  dew: z.boolean().nullable(),
  frost: z.boolean().nullable(),
  sky: z.enum(['clear', 'partly-cloudy', 'overcast']).nullable(),
  turfGrowthStage: nameField.nullable(),
  weedGrowthStage: nameField.nullable(),
  device: nameField.nullable(),
  notes: notesField,
});
/** A day on which all plots are photographed or scored. */
export const ratingSchema = z.strictObject({
  id: idField,
  timing: timingSchema,
  windowDays: z.strictObject({ before: z.int().min(0).max(365), after: z.int().min(0).max(365) }),
  /** The day it was done; null while it is only planned. */
  doneOn: dayField.nullable(),
  conditions: ratingConditionsSchema.nullable(),
});
export type Rating = z.infer<typeof ratingSchema>;

/** Something scored by eye or counted beside photo cover: injury, quality, colour, seedheads. */
export const ratedVariableSchema = z
  .strictObject({
    id: idField,
    name: nameField,
    /** "%", "1-9", "plants per m2". */
    unit: nameField,
    least: z.number(),
    most: z.number(),
    /** Scores lie on least, least + step, ...; null for any value between the bounds. */
    step: z.number().positive().nullable(),
    better: z.enum(['higher', 'lower', 'neither']),
  })
  .check((context) => {
    const { least, most, step } = context.value;
    if (least >= most) context.issues.push(fault(['most'], { code: 'bounds-crossed', least, most }));
    else if (step !== null && !liesOnStep(most, least, step)) {
      context.issues.push(fault(['step'], { code: 'step-does-not-fit', least, most }));
    }
  });
export type RatedVariable = z.infer<typeof ratedVariableSchema>;

/** One score of one plot; a null value is a plot that was looked at and could not be scored. */
export const scoreSchema = z.strictObject({
  variable: idField,
  plot: plotNameField,
  ratingDate: dayField,
  value: z.number().nullable(),
  rater: nameField.nullable(),
});
export type Score = z.infer<typeof scoreSchema>;

export type ScoreProblem =
  | { readonly code: 'score-not-a-number' }
  | { readonly code: 'score-out-of-bounds'; readonly least: number; readonly most: number }
  | {
      readonly code: 'score-between-steps';
      readonly step: number;
      readonly below: number;
      readonly above: number;
    };

/** Why a value cannot be a score of the variable; null if it can. */
export function scoreProblem(value: number, variable: RatedVariable): ScoreProblem | null {
  const { least, most, step } = variable;
  if (!Number.isFinite(value)) return { code: 'score-not-a-number' };
  if (value < least || value > most) return { code: 'score-out-of-bounds', least, most };
  if (step === null || liesOnStep(value, least, step)) return null;
  const below = Number((least + Math.floor((value - least) / step) * step).toPrecision(12));
  const above = Number((below + step).toPrecision(12));
  return { code: 'score-between-steps', step, below, above };
}

/** Decimal steps such as 0.1 are not exact in binary: a billionth of a step either way is on it. */
function liesOnStep(value: number, least: number, step: number): boolean {
  const steps = (value - least) / step;
  return Math.abs(steps - Math.round(steps)) < 1e-9 * Math.max(1, Math.abs(steps));
}

/**
 * Scales in common use, to start a variable from; common practice, no source. Nothing is rated unless the user adds it.
 */
export const COMMON_RATED_VARIABLES: readonly RatedVariable[] = [
  { id: 'turf-quality', name: 'Turf quality', unit: '1-9', least: 1, most: 9, step: 0.5, better: 'higher' },
  { id: 'turf-colour', name: 'Turf colour', unit: '1-9', least: 1, most: 9, step: 0.5, better: 'higher' },
  { id: 'turf-injury', name: 'Turf injury', unit: '%', least: 0, most: 100, step: 1, better: 'lower' },
  { id: 'cover-by-eye', name: 'Weed cover by eye', unit: '%', least: 0, most: 100, step: 1, better: 'lower' },
  { id: 'seedheads', name: 'Seedheads', unit: 'per frame', least: 0, most: 10_000, step: 1, better: 'lower' },
];

/** One line of the sheet for scoring in the field. It holds no treatment and no earlier score, by its type. */
export interface ScoreLine {
  readonly position: number;
  readonly plot: string;
  readonly row: number;
  readonly column: number;
}

/** The plots to score, in the order they are walked past, blind to treatment. */
export function scoreSheet(
  walkingOrder: readonly { readonly plot: string; readonly row: number; readonly column: number }[],
): ScoreLine[] {
  return walkingOrder.map(({ plot, row, column }, index) => ({ position: index + 1, plot, row, column }));
}
