import { z } from 'zod';
import {
  clockTimeField,
  dayField,
  fault,
  idField,
  nameField,
  notesField,
  treatmentNumberField,
} from './fields.ts';
import { quantityField, rateField } from './quantity.ts';
import { timingSchema } from './timing.ts';

export const activeIngredientSchema = z.strictObject({
  name: nameField,
  /** Group of its mode of action, as on the label; null where not known. */
  modeOfActionGroup: nameField.nullable(),
  /** How much of it the product holds; null where not known: then no total of the ingredient is made. */
  content: quantityField('mass-per-volume', 'mass-share').nullable(),
});
/** One product in the tank. */
export const appliedProductSchema = z.strictObject({
  name: nameField,
  activeIngredients: z.array(activeIngredientSchema).max(10),
  rate: rateField.nullable(),
  /** A use within the product's label, or an experimental one: every table then says so. */
  use: z.enum(['label', 'experimental']),
  /** Money for one hectare of ground at this rate, in the trial's own currency. */
  costPerHectare: z.number().min(0).nullable(),
});
export type AppliedProduct = z.infer<typeof appliedProductSchema>;

/** The user's own range of temperatures for an application: the mean of so many days up to and with the day itself. */
export const temperatureWindowSchema = z
  .strictObject({
    of: z.enum(['air', 'soil']),
    leastC: z.number().min(-40).max(60),
    mostC: z.number().min(-40).max(60),
    meanOfDays: z.int().min(1).max(30),
  })
  .check((context) => {
    const { leastC, mostC } = context.value;
    if (leastC > mostC) {
      context.issues.push(fault(['mostC'], { code: 'bounds-crossed', least: leastC, most: mostC }));
    }
  });
export type TemperatureWindow = z.infer<typeof temperatureWindowSchema>;

export const applicationWeatherSchema = z.strictObject({
  airTemperatureC: z.number().min(-40).max(60).nullable(),
  soilTemperatureC: z.number().min(-30).max(60).nullable(),
  relativeHumidityPercent: z.number().min(0).max(100).nullable(),
  wind: quantityField('speed').nullable(),
  cloudPercent: z.number().min(0).max(100).nullable(),
  notes: notesField,
});

/** Planned, done, or left out; what was done keeps its day whatever becomes of the plan. */
export const applicationStateSchema = z.discriminatedUnion('state', [
  z.strictObject({ state: z.literal('planned') }),
  z.strictObject({
    state: z.literal('done'),
    date: dayField,
    /** Local clock time at the end of spraying. */
    finishedAt: clockTimeField.nullable(),
    by: nameField.nullable(),
    weather: applicationWeatherSchema.nullable(),
    /** What was done otherwise than planned; empty where nothing was. */
    deviations: notesField,
  }),
  z.strictObject({ state: z.literal('left-out'), why: nameField }),
]);

/** One visit to the plots of one or more treatments; a tank mixture is several products of one application. */
export const applicationSchema = z.strictObject({
  id: idField,
  treatments: z.array(treatmentNumberField).min(1).max(200),
  /** What is done, in the user's words. */
  description: nameField,
  products: z.array(appliedProductSchema).max(12),
  timing: timingSchema,
  /** How far from its day it may be done and still be as planned. */
  windowDays: z.strictObject({ before: z.int().min(0).max(365), after: z.int().min(0).max(365) }),
  temperatureWindow: temperatureWindowSchema.nullable(),
  carrierVolume: quantityField('volume-per-area').nullable(),
  equipment: nameField.nullable(),
  nozzle: nameField.nullable(),
  pressure: quantityField('pressure').nullable(),
  /** Hours after spraying before anybody may step on the plot, as the user read them on the label. */
  reEntryHours: z.number().min(0).max(2000).nullable(),
  progress: applicationStateSchema,
});
export type Application = z.infer<typeof applicationSchema>;

/** The most of a product or active ingredient on one plot in a season, as the user entered it from the label. */
export const seasonLimitSchema = z.strictObject({
  of: z.enum(['product', 'active-ingredient']),
  name: nameField,
  most: quantityField('mass-per-area', 'volume-per-area'),
});
export type SeasonLimit = z.infer<typeof seasonLimitSchema>;
