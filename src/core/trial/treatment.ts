import { z } from 'zod';
import { nameField, notesField, treatmentNumberField } from './fields.ts';

export const treatmentSchema = z.strictObject({
  /** Treatments are numbered; letters are kept for groups of means. */
  number: treatmentNumberField,
  name: nameField,
  /**
   * Whether this is the untreated control, and of which kind: `included` is randomised with the others; `adjacent` lies
   * beside the treated plots, outside the randomisation, and takes no part in the analysis of variance.
   */
  untreatedControl: z.enum(['included', 'adjacent']).nullable(),
  /** Levels of the factors it combines, by factor name; empty where treatments are not factorial. */
  levels: z.record(nameField, nameField),
  notes: notesField,
});
export type Treatment = z.infer<typeof treatmentSchema>;

/** Numbers of the untreated controls that lie beside the treated plots. */
export const adjacentTreatments = (treatments: readonly Treatment[]): ReadonlySet<number> =>
  new Set(
    treatments.filter(({ untreatedControl }) => untreatedControl === 'adjacent').map(({ number }) => number),
  );

/** The treatments that a layout randomises. */
export function randomisedTreatments(treatments: readonly Treatment[]): Treatment[] {
  return treatments.filter((treatment) => treatment.untreatedControl !== 'adjacent');
}
