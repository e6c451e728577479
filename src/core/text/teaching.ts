import type { FitResult } from '../classifier/coverModel.ts';
import type { DoubtReason } from '../classifier/taughtDoubts.ts';
import type { StrokeProblem } from '../classifier/trainingSamples.ts';
import type { CoverModelProblem } from '../exchange/coverModel.ts';
import { catalogue } from './catalogue.ts';
import { formatPercent, formatQuantity } from './format.ts';

/** What a class is called in a sentence. */
export type ClassName = (classId: string) => string;

/** Whatever the agreement on strokes is shown for, this stands beside it. */
export const AGREEMENT_IS_NO_ACCURACY = catalogue(
  'AGREEMENT_IS_NO_ACCURACY',
  'This is not the accuracy: people paint easy places. Check the figure with points.',
);

/** What of the strokes on a photo could not be used, without the photo's name. Strokes are counted from 1. */
export const strokeProblemText = catalogue(
  'strokeProblemText',
  (problem: StrokeProblem, nameOf: ClassName): string => {
    switch (problem.code) {
      case 'stroke-outside':
        return `Stroke ${problem.stroke + 1} (${nameOf(problem.classId)}) lies outside the measured area and teaches nothing. Paint inside the frame.`;
      case 'stroke-partly-outside':
        return `Stroke ${problem.stroke + 1} (${nameOf(problem.classId)}) leaves the measured area; ${formatQuantity(problem.pixels, 'pixel', 'pixels')} of it teach nothing.`;
      case 'stroke-class-unknown':
        return `Stroke ${problem.stroke + 1} has the class "${problem.classId}", which is none of the classes. It teaches nothing.`;
      case 'cells-contradict':
        return `${formatQuantity(problem.cells, 'place is', 'places are')} painted with two classes and ${problem.cells === 1 ? 'teaches' : 'teach'} nothing. Erase one of the two.`;
    }
  },
);

/** Why nothing can be taught, and the way out. */
export const teachingProblemText = catalogue(
  'teachingProblemText',
  (problem: Extract<FitResult, { ok: false }>['problem'], nameOf: ClassName): string => {
    switch (problem.code) {
      case 'no-strokes':
        return 'No stroke lies inside a measured area. Paint two classes or more on a photo.';
      case 'one-class-only':
        return `Only ${nameOf(problem.classId)} is painted. Paint a second class, so that there is something to tell it from.`;
    }
  },
);

/** Why a model file cannot be used, and the way out. */
export const coverModelProblemText = catalogue(
  'coverModelProblemText',
  (problem: CoverModelProblem): string => {
    switch (problem.code) {
      case 'not-json':
        return `This is not valid JSON: ${problem.detail}. The file is damaged; save the model again.`;
      case 'other-type':
        return `"type" is ${problem.met}; a model file says "cover-model".`;
      case 'bad-version':
        return `"version" is ${problem.met}; allowed: a whole number from 1.`;
      case 'newer-version':
        return `The model has version ${problem.met}; this program reads up to ${problem.newest}. Use a newer version of the program.`;
      case 'other-feature-set':
        return `The model was taught on the features ${problem.met}; this program computes "${problem.known}". Teach it again from its strokes.`;
      case 'bad-field':
        return `"${problem.field}" is ${problem.met}, which cannot be. The file is damaged; save the model again.`;
      case 'fewer-than-two-classes-taught':
        return `The model was taught ${problem.met === 0 ? 'no class' : 'one class only'}. Teach it two or more.`;
    }
  },
);

const DIFFERENCE = {
  darker: 'darker',
  lighter: 'lighter',
  yellower: 'yellower',
  bluer: 'bluer',
  greener: 'greener',
  redder: 'redder or browner',
} as const;

/** Why a figure is in doubt, as a sentence. */
export const doubtReasonText = catalogue(
  'doubtReasonText',
  (reason: DoubtReason, nameOf: ClassName): string => {
    switch (reason.code) {
      case 'class-differs':
        return `${capital(nameOf(reason.classId))} here is ${DIFFERENCE[reason.difference]} than any that was painted.`;
      case 'photo-differs':
        return 'The plants and the ground of this photo look unlike those that were painted.';
      case 'light-differs':
        return 'The light of this photo (sun, shade) is unlike that of the photos painted on.';
      case 'unsteady-shares':
        return `The share of ${nameOf(reason.classId)} hangs on few strokes: leaving some out moves it by about ${formatPercent(reason.value)} points.`;
      case 'classes-overlap':
        return 'Much of this photo lies between classes.';
    }
  },
);

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
