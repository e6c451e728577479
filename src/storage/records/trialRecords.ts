import * as z from 'zod';
import { calendarDay, coverClass, id, instant, person } from './common.ts';

const text = z.string();
const optionalText = text.nullable();
const optionalNumber = z.number().nullable();
/** A quantity as the person entered it, with its SI value beside it; null where the unit is not known for sure. */
const quantity = z.object({ value: z.number(), unit: text, siValue: optionalNumber, siUnit: optionalText });
const sizeM = z.tuple([z.number().positive(), z.number().positive()]);

export const trialRecord = z.object({
  id,
  name: text,
  site: optionalText,
  turf: optionalText,
  sowingDate: calendarDay.nullable(),
  sowingRate: quantity.nullable(),
  mowingHeightMm: z.number().positive().nullable(),
  notes: optionalText,
  design: z.enum(['randomized-complete-block', 'completely-randomized', 'latin-square', 'own']).nullable(),
  /** Width and length; net is what is rated, inside the guards. */
  grossPlotM: sizeM.nullable(),
  netPlotM: sizeM.nullable(),
  classes: z.array(coverClass).min(1),
  /** Bare patches below this are given to their surroundings; null counts every pixel. */
  smallestGapMm: z.number().positive().nullable(),
  people: z.array(text),
  createdAt: instant,
});

export const treatmentRecord = z.object({
  id,
  trialId: id,
  /** Treatments are numbered; letters are for groups of means. */
  number: z.int().positive(),
  name: text,
  untreatedControl: z.enum(['included', 'adjacent']).nullable(),
});

export const applicationRecord = z.object({
  id,
  trialId: id,
  treatmentId: id,
  product: text,
  activeIngredient: optionalText,
  modeOfActionGroup: optionalText,
  use: z.enum(['label', 'experimental']).nullable(),
  rate: quantity.nullable(),
  timing: z.discriminatedUnion('kind', [
    z.object({ kind: z.literal('date'), date: calendarDay }),
    z.object({ kind: z.literal('days-from-sowing'), days: z.int() }),
    z.object({ kind: z.literal('days-after-application'), applicationId: id, days: z.int() }),
    z.object({ kind: z.literal('growth-stage'), stage: text }),
  ]),
  carrierVolume: quantity.nullable(),
  equipment: optionalText,
  reentryHours: z.number().nonnegative().nullable(),
  done: z.object({ at: text, by: person, weather: optionalText, deviation: optionalText }).nullable(),
});

export const plotRecord = z.object({
  id,
  trialId: id,
  /** As on the label in the field, e.g. "101". */
  name: text,
  block: text.nullable(),
  treatmentId: id.nullable(),
  row: z.int().positive().nullable(),
  column: z.int().positive().nullable(),
});

export const ratingDateRecord = z.object({
  id,
  trialId: id,
  date: calendarDay,
  daysSinceMowing: optionalNumber,
  dewOrFrost: optionalText,
  sky: optionalText,
  growthStages: optionalText,
  device: optionalText,
  /** Closes the date; a later change is an amendment with a reason. */
  signedOff: z.object({ by: text, at: instant, sha256: text }).nullable(),
});

/** Something rated beside photo cover: injury, quality, colour, a count, cover by eye. */
export const ratedVariableRecord = z.object({
  id,
  trialId: id,
  name: text,
  unit: optionalText,
  least: optionalNumber,
  most: optionalNumber,
});

export const ratingRecord = z.object({
  id,
  trialId: id,
  variableId: id,
  plotId: id,
  ratingDate: calendarDay,
  /** Null: looked at and not rateable, which is not 0. */
  value: optionalNumber,
  rater: person,
  at: instant,
});

/** What went other than planned, and what is left out of the analysis because of it. */
export const deviationRecord = z.object({
  id,
  trialId: id,
  plotId: id.nullable(),
  ratingDate: calendarDay.nullable(),
  what: text,
  effect: optionalText,
  reason: optionalText,
  excluded: z.boolean(),
  by: person,
  at: instant,
});
