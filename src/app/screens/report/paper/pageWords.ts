import type { TrialReport } from '../../../../core/report/trialReport.ts';
import { reportText as text } from '../../../../core/text/report.ts';
import { EXPERIMENTAL_USE } from '../../../../core/text/trial.ts';

/** What stands on every page, as properties that paper.css prints in the margins. */
export function pageWords({ trial, experimental }: TrialReport): Readonly<Record<`--${string}`, string>> {
  return {
    '--paper-running': cssString(text.running(trial.name, trial.code)),
    '--paper-foot': cssString([text.foot, ...(experimental ? [EXPERIMENTAL_USE] : [])].join(' ')),
  };
}

/** A text as a string of CSS that may stand in a style element. */
const cssString = (words: string): string => JSON.stringify(words).replaceAll('<', '\\3c ');
