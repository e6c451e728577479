import * as z from 'zod/mini';
import type { CoverClass } from '../core/trial/coverClass.ts';
import { DEFAULT_CLASSES } from '../core/trial/defaultClasses.ts';
import type { GapRule } from '../core/trial/trial.ts';
import { coverClass, gapRule } from './records/common.ts';
import type { TrialRecord } from './records/trialRecords.ts';

/** What a trial settles before its first rating: the kinds of cover it tells apart, and what becomes of small gaps. */
export interface CoverDefinition {
  readonly classes: readonly CoverClass[];
  readonly gapRule: GapRule;
}

/** Without a trial. */
export const DEFAULT_DEFINITION: CoverDefinition = {
  classes: DEFAULT_CLASSES,
  gapRule: { kind: 'every-pixel' },
};

/** The plan itself is checked where it is opened; here only the part that measuring needs. */
const definitionSchema = z.object({ classes: z.array(coverClass).check(z.minLength(1)), gapRule });

/** The trial a photo belongs to: the one it names, else the project's trial, which is the oldest. */
export function trialFor(trialId: string | null, trials: readonly TrialRecord[]): TrialRecord | undefined {
  if (trialId !== null) return trials.find(({ id }) => id === trialId);
  return trials.toSorted((a, b) => (a.createdAt < b.createdAt ? -1 : 1))[0];
}

/**
 * The definition that holds for a photo: that of its trial. Where there is no trial, or one whose plan cannot be read, that of
 * a project without one.
 */
export function definitionFor(trialId: string | null, trials: readonly TrialRecord[]): CoverDefinition {
  const trial = trialFor(trialId, trials);
  const checked = trial && definitionSchema.safeParse(trial.plan.trial);
  return checked?.success ? (checked.data as CoverDefinition) : DEFAULT_DEFINITION;
}
