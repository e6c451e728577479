import type { GapRule } from '../trial/trial.ts';
import { catalogue } from './catalogue.ts';
import { formatLength } from './format.ts';

/** The rule for small gaps in words. */
export const gapRuleText = catalogue('gapRuleText', (rule: GapRule | undefined): string =>
  !rule || rule.kind === 'every-pixel'
    ? 'Small gaps between plants: every pixel counted.'
    : `Bare ground into which no circle of ${formatLength(rule.smallerThanMm)} mm fits counts as the cover nearest to it.`,
);

/** The rule that a figure was really made by: one that needs a scale and had none counted every pixel. */
export const figureGapRuleText = ({
  settings,
  flags,
}: {
  readonly settings: { readonly gapRule?: GapRule };
  readonly flags: readonly string[];
}): string => gapRuleText(flags.includes('gap-rule-needs-scale') ? undefined : settings.gapRule);
