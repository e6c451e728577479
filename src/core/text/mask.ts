import type { CorrectionBytesProblem } from '../mask/correctionBytes.ts';
import type { LopsidedWarning } from '../mask/correctionsByTreatment.ts';
import { catalogue } from './catalogue.ts';
import { formatList, formatPercent, formatSigned } from './format.ts';

/** Why stored corrections cannot be read and the way out, without the photo's name. */
export const correctionBytesProblemText = catalogue(
  'correctionBytesProblemText',
  (problem: CorrectionBytesProblem): string => {
    switch (problem.code) {
      case 'corrections-other-data':
        return 'What is stored as corrections is something else. It is kept as it is; export it and ask for help before you correct this photo anew.';
      case 'corrections-newer-version':
        return (
          `The corrections were saved by a newer version of this program (format ${problem.version}, known up to ${problem.known}). ` +
          'They are kept as they are. Update the program to see them.'
        );
      case 'corrections-damaged':
        return (
          `The corrections are damaged (${problem.detail}). They are kept as they are. ` +
          'Take them from an archive or another device; until then the automatic classes are shown.'
        );
      case 'corrections-other-size':
        return (
          `The corrections belong to a photo of ${problem.widthPx} × ${problem.heightPx} pixels, this one has ` +
          `${problem.photoWidthPx} × ${problem.photoHeightPx}. They are kept; look for the photo they were made on.`
        );
    }
  },
);

/**
 * What to think of before treatments are compared, and what to do.
 *
 * @param classNames in class order
 */
export const lopsidedWarningText = catalogue(
  'lopsidedWarningText',
  (warning: LopsidedWarning, classNames: readonly string[]): string => {
    switch (warning.code) {
      case 'corrections-treatments-left-out':
        return (
          `Photos were corrected by hand, but of ${formatList(warning.leftOut)} none was looked at (of ${formatList(warning.seen)} some were). ` +
          'Correcting only some treatments biases their comparison: look at photos of every treatment.'
        );
      case 'corrections-uneven-review':
        return (
          `Of ${warning.most.treatment}, ${formatPercent(warning.most.fraction)} % of the photos were looked at, ` +
          `of ${warning.least.treatment} only ${formatPercent(warning.least.fraction)} %. ` +
          'Treatments should be checked with the same care: look at the rest, or at an equal share chosen by lot.'
        );
      case 'corrections-move-comparison': {
        const name = classNames[warning.label - 1];
        if (name === undefined)
          throw new RangeError(`class ${warning.label}: ${classNames.length} names are given`);
        return (
          `Corrections moved the mean cover of ${name} by ${points(warning.most.fraction)} in ${warning.most.treatment} ` +
          `and by ${points(warning.least.fraction)} in ${warning.least.treatment}. ` +
          'Part of the difference between them rests on hand work: check it against a point count.'
        );
      }
    }
  },
);

/** A change of cover in percentage points, e.g. "+2.4 points". */
const points = (fraction: number): string => `${formatSigned(fraction * 100)} points`;
