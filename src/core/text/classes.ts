import type { ClassKind } from '../trial/classList.ts';
import { catalogue } from './catalogue.ts';
import { formatList, formatQuantity } from './format.ts';

/** What the trial's part about classes and small gaps says. */
export const classesText = catalogue('classesText', {
  caption: 'Classes, in the order of masks and tables',
  add: 'Add a class',
  full: (most: number) => `A trial tells apart at most ${most} classes.`,
  edit: (name: string) => `Change ${name}`,
  editWord: 'Change',
  up: (name: string) => `Move ${name} up`,
  down: (name: string) => `Move ${name} down`,
  addedTo: (name: string) => `counts to ${name}`,
  taughtOnly: 'found by strokes only',
  dialogNew: 'Add a class',
  dialogEdit: 'Change the class',
  kind: 'Kind',
  kinds: {
    'green-base-turf': 'Green base turf',
    seedheads: 'Seedheads',
    'discoloured-tissue': 'Discoloured tissue',
    'broadleaf-weeds': 'Broadleaf weeds',
    other: 'Another kind',
  } satisfies Record<ClassKind, string>,
  otherName: 'New class',
  name: 'Name',
  letter: 'Letter',
  letterHint: 'Stands wherever the colour does, and is the key when points are called.',
  letterTaken: (name: string) => `${name} has this letter. Take another.`,
  group: 'In reports',
  ownGroup: 'On its own',
  groupHint: 'Seedheads and discoloured leaves count to the living plant they belong to.',
  colour: 'Colour',
  colourNumber: (at: number) => `Colour ${at}`,
  ownColour: 'Another colour',
  alike: (names: readonly string[]) =>
    `Hard to tell from ${formatList(names)}, at least for readers who see red and green alike. Letter and pattern still tell them apart.`,
  newClassHint: 'The start model cannot find it: it has 0 % until a date is taught with strokes of it.',
  save: 'Keep the class',
  remove: 'Remove the class',
  removeTitle: (name: string) => `Remove ${name}?`,
  fewest: 'A trial tells apart at least two classes, so none can be removed.',
  nothingHangs: 'Nothing was painted, called, corrected or measured with this class.',
  hangs: (strokes: number, calls: number, corrected: number, measured: number) =>
    `On this class hang ${formatList([
      ...(strokes > 0 ? [formatQuantity(strokes, 'stroke', 'strokes')] : []),
      ...(calls > 0 ? [formatQuantity(calls, 'called point', 'called points')] : []),
      ...(corrected > 0 ? [formatQuantity(corrected, 'corrected photo', 'corrected photos')] : []),
      ...(measured > 0 ? [formatQuantity(measured, 'measured photo', 'measured photos')] : []),
    ])}. None of it is deleted, but without the class it counts for nothing.`,
  removeSure: 'Remove it',

  gapTitle: 'Small gaps between plants',
  gapEvery: 'Every pixel counts',
  gapEveryHint: 'Dark gaps between leaves are bare ground, however small.',
  gapCircle: 'Narrow gaps count to the plants beside them',
  gapCircleHint:
    'Bare ground is what a circle of this width fits into; anything narrower goes to the nearest cover. Needs the size of the frame. Automatic masks draw gaps coarser than they are: check such figures with points.',
  gapWidth: 'Width of the circle',
  gapSettle:
    'Worth several points of cover, so settle it once, before the first rating. It stands beside every figure, and points follow it too.',
  staleNotice: (count: number) =>
    `${formatQuantity(count, 'photo was', 'photos were')} measured with the earlier classes or rule for gaps.`,
  setAsideNotice: (count: number) =>
    `The model taught for ${formatQuantity(count, 'photo', 'photos')} knows other classes than the trial has now, so the start model measures them. Teach their dates again.`,
  measureAgain: 'Measure again',
} as const);
