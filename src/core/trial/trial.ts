import { z } from 'zod';
import { MOST_CLASSES } from './classList.ts';
import { dayField, fault, formField, nameField, notesField } from './fields.ts';
import { quantityField } from './quantity.ts';

/** Text of a class or rater that is shown beside figures. */
const shortText = z.string().trim().min(1).max(60);

export const coverClassSchema = z.strictObject({
  id: formField('class-id', /^[a-z0-9]+(-[a-z0-9]+)*$/),
  name: shortText,
  reportingGroup: shortText,
  startRole: z.enum(['dark-grass', 'light-grass', 'ground']).nullable(),
  key: formField('class-key', /^[A-Z0-9]$/),
  colour: formField('colour', /^#[0-9a-f]{6}$/),
});

/** A circle wider than this is no gap between plants. Judgement. */
export const LARGEST_GAP_RULE_MM = 100;

/**
 * What becomes of dark gaps between blades; settled once, before the first rating, since it is worth several points of cover.
 * `small-patches-to-surroundings`: bare ground into which no circle this many mm wide fits counts as the cover nearest to it
 * (core/mask/gapRule.ts).
 */
export const gapRuleSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('every-pixel') }),
  z.strictObject({
    kind: z.literal('small-patches-to-surroundings'),
    smallerThanMm: z.number().positive().max(LARGEST_GAP_RULE_MM),
  }),
]);
export type GapRule = z.infer<typeof gapRuleSchema>;

const plotSideMm = z.number().min(200).max(100_000);

/** Gross plot: the ground that is treated. Net plot: the part that is rated, without the guard strips along the edges. */
export const plotSizeSchema = z
  .strictObject({
    /** Across the walking direction of row 1, from the left edge to the right one. */
    grossWidthMm: plotSideMm,
    grossLengthMm: plotSideMm,
    netWidthMm: plotSideMm,
    netLengthMm: plotSideMm,
  })
  .check((context) => {
    const size = context.value;
    if (size.netWidthMm > size.grossWidthMm) {
      const problem = { code: 'net-larger-than-gross', grossMm: size.grossWidthMm } as const;
      context.issues.push(fault(['netWidthMm'], problem));
    }
    if (size.netLengthMm > size.grossLengthMm) {
      const problem = { code: 'net-larger-than-gross', grossMm: size.grossLengthMm } as const;
      context.issues.push(fault(['netLengthMm'], problem));
    }
  });
export type PlotSize = z.infer<typeof plotSizeSchema>;

/** Everything about a trial that is not a treatment, an application, a plot or a rating. Unknown is null, never a guess. */
export const trialSchema = z.strictObject({
  /** Six letters and digits that stand on every plot label; see plotLabel.ts. */
  code: formField('trial-code', /^[0-9A-HJKMNP-TV-Z]{6}$/),
  name: nameField,
  /** What the trial is to find out, in a sentence or two; left out by plans from before this was kept. */
  objective: notesField.exactOptional(),
  site: z.strictObject({
    name: nameField,
    latitudeDegrees: z.number().min(-90).max(90).nullable(),
    longitudeDegrees: z.number().min(-180).max(180).nullable(),
    notes: notesField,
  }),
  turf: z.strictObject({
    species: nameField,
    cultivar: nameField.nullable(),
    /** What the turf was sown over, e.g. dormant warm-season turf. */
    sownOver: nameField.nullable(),
  }),
  sowing: z.strictObject({
    date: dayField.nullable(),
    /** Seed by weight on the ground. */
    rate: quantityField('mass-per-area').nullable(),
  }),
  mowing: z.strictObject({ heightMm: z.number().min(1).max(300).nullable(), notes: notesField }),
  soil: notesField,
  irrigation: notesField,
  plotSize: plotSizeSchema.nullable(),
  classes: z
    .array(coverClassSchema)
    .min(2)
    .max(MOST_CLASSES)
    .check((context) => {
      for (const field of ['id', 'key'] as const) {
        context.value.forEach((coverClass, index) => {
          const first = context.value.findIndex((other) => other[field] === coverClass[field]);
          if (first !== index) context.issues.push(fault([index, field], { code: 'not-unique' }));
        });
      }
    }),
  gapRule: gapRuleSchema,
  /** People who rate, by the name or initials they sign with. Names are typed: they prove nothing about who typed. */
  raters: z.array(shortText).max(50),
});
