import type { GapRule } from '../trial/trial.ts';
import { formatLength } from './format.ts';

/** The rule for small gaps as it stands beside figures. */
export const gapRuleText = (rule: GapRule | undefined): string =>
  !rule || rule.kind === 'every-pixel'
    ? 'Small gaps between plants: every pixel counted.'
    : `Bare ground into which no circle of ${formatLength(rule.smallerThanMm)} mm fits counts as the cover nearest to it.`;
