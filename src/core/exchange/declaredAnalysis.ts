import { z } from 'zod';
import type { DeclaredAnalysis } from '../statistics/declaredAnalysis.ts';
import { TRANSFORMS } from '../statistics/transforms.ts';
import { checkRecord } from '../trial/checkRecord.ts';
import { exclusionSchema } from '../trial/deviation.ts';
import type { Checked } from '../trial/fieldProblem.ts';
import { dayField, idField, nameField } from '../trial/fields.ts';
import { coverClassSchema, gapRuleSchema } from '../trial/trial.ts';
import { COVER_METHODS } from './coverTable.ts';

/** The form a declared analysis is kept and exported in (`declared-analysis`, version 1). */
export const declaredAnalysisSchema = z.strictObject({
  type: z.literal('declared-analysis'),
  version: z.literal(1),
  variable: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('class'), classId: nameField }),
    z.strictObject({ kind: z.literal('group'), reportingGroup: nameField }),
    z.strictObject({ kind: z.literal('rated'), variableId: idField }),
    z.strictObject({ kind: z.literal('colour') }),
  ]),
  method: z.enum(COVER_METHODS).nullable(),
  when: z.discriminatedUnion('kind', [
    z.strictObject({ kind: z.literal('date'), ratingDate: dayField }),
    z.strictObject({ kind: z.literal('area') }),
  ]),
  transform: z.enum(TRANSFORMS),
  alpha: z.number().gt(0).lt(1),
  controlThreshold: z.number().nullable(),
  minimumPressure: z.number().min(0),
  classes: z.array(coverClassSchema).max(12),
  gapRule: gapRuleSchema,
  exclusions: z.array(exclusionSchema).max(2000),
});

/** A declaration as it is stored. */
export type StoredDeclaration = z.infer<typeof declaredAnalysisSchema>;

/** Reads a stored declaration; every problem names its field. */
export function readDeclaredAnalysis(stored: unknown): Checked<DeclaredAnalysis> {
  const checked = checkRecord(declaredAnalysisSchema, stored);
  if (!checked.ok) return checked;
  const { type: _type, version: _version, ...declared } = checked.value;
  return { ok: true, value: declared };
}

/** A declaration in the form it is stored and exported in. */
export function storedDeclaration(declared: DeclaredAnalysis): StoredDeclaration {
  return declaredAnalysisSchema.parse({ type: 'declared-analysis', version: 1, ...declared });
}
