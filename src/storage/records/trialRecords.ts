import * as z from 'zod/mini';
import {
  calendarDay,
  coverClass,
  id,
  instant,
  nonNegative,
  person,
  positive,
  positiveInt,
} from './common.ts';

const text = z.string();
const optionalText = z.nullable(text);
const optionalNumber = z.nullable(z.number());
/** A quantity as the person entered it, with its SI value beside it; null where the unit is not known for sure. */
const quantity = z.object({ value: z.number(), unit: text, siValue: optionalNumber, siUnit: optionalText });
const sizeM = z.tuple([positive, positive]);

export const trialRecord = z.object({
  id,
  name: text,
  site: optionalText,
  turf: optionalText,
  sowingDate: z.nullable(calendarDay),
  sowingRate: z.nullable(quantity),
  mowingHeightMm: z.nullable(positive),
  notes: optionalText,
  design: z.nullable(z.enum(['randomized-complete-block', 'completely-randomized', 'latin-square', 'own'])),
  /** Width and length; net is what is rated, inside the guards. */
  grossPlotM: z.nullable(sizeM),
  netPlotM: z.nullable(sizeM),
  classes: z.array(coverClass).check(z.minLength(1)),
  /** Bare patches below this are given to their surroundings; null counts every pixel. */
  smallestGapMm: z.nullable(positive),
  people: z.array(text),
  createdAt: instant,
});

export const treatmentRecord = z.object({
  id,
  trialId: id,
  /** Treatments are numbered; letters are for groups of means. */
  number: positiveInt,
  name: text,
  untreatedControl: z.nullable(z.enum(['included', 'adjacent'])),
});

export const applicationRecord = z.object({
  id,
  trialId: id,
  treatmentId: id,
  product: text,
  activeIngredient: optionalText,
  modeOfActionGroup: optionalText,
  use: z.nullable(z.enum(['label', 'experimental'])),
  rate: z.nullable(quantity),
  timing: z.discriminatedUnion('kind', [
    z.object({ kind: z.literal('date'), date: calendarDay }),
    z.object({ kind: z.literal('days-from-sowing'), days: z.int() }),
    z.object({ kind: z.literal('days-after-application'), applicationId: id, days: z.int() }),
    z.object({ kind: z.literal('growth-stage'), stage: text }),
  ]),
  carrierVolume: z.nullable(quantity),
  equipment: optionalText,
  reentryHours: z.nullable(nonNegative),
  done: z.nullable(z.object({ at: text, by: person, weather: optionalText, deviation: optionalText })),
});

export const plotRecord = z.object({
  id,
  trialId: id,
  /** As on the label in the field, e.g. "101". */
  name: text,
  block: z.nullable(text),
  treatmentId: z.nullable(id),
  row: z.nullable(positiveInt),
  column: z.nullable(positiveInt),
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
  signedOff: z.nullable(z.object({ by: text, at: instant, sha256: text })),
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
  plotId: z.nullable(id),
  ratingDate: z.nullable(calendarDay),
  what: text,
  effect: optionalText,
  reason: optionalText,
  excluded: z.boolean(),
  by: person,
  at: instant,
});
