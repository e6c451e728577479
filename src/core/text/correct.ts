import type { CorrectionSummary } from '../mask/correctionSummary.ts';
import { catalogue } from './catalogue.ts';
import { formatCount, formatPercent, formatQuantity, formatSigned } from './format.ts';

const gestures = (count: number) => formatQuantity(count, 'gesture', 'gestures');
const photos = (count: number) => formatQuantity(count, 'photo', 'photos');

/** What the correcting of a mask says on screen. */
export const correct = catalogue('correct', {
  command: 'Correct by hand',
  word: 'Correct',
  title: 'Correct by hand',
  done: 'Done',
  doneLabel: 'Leave correcting',
  opening: 'Opening…',
  noMask: 'The classes of this photo are being worked out. Correcting begins when they are there.',
  stage: (name: string) =>
    `Classes of photo ${name}, to be corrected. Arrow keys move the cursor, with Shift ten times as far; Enter uses the tool there.`,
  automaticStage: (name: string) => `Photo ${name} as computed`,
  tools: 'Tool',
  brush: 'Brush',
  outline: 'Outline',
  patch: 'Patch',
  likeness: 'Like colours',
  move: 'Move',
  classes: 'What to paint',
  paint: (name: string) => `Paint ${name}`,
  asComputed: 'As computed',
  asComputedHint: 'takes corrections back',
  automaticShare: (coverFraction: number) => `computed ${formatPercent(coverFraction)} %`,
  onlyOver: 'Only over',
  anyClass: 'any class',
  changeEverywhere: (from: string, to: string) => `Change all ${from} to ${to}`,
  size: 'Brush radius',
  sizeField: (unit: 'px' | 'mm') =>
    unit === 'px' ? 'Brush radius in photo pixels' : 'Brush radius in millimetres on the ground',
  unit: 'Unit of the radius',
  smaller: 'Smaller brush',
  larger: 'Larger brush',
  outlineDoes: 'Inside the outline',
  paintInside: 'Paint',
  smoothInside: 'Smooth',
  smoothRadius: 'Smoothing radius',
  smoothHint:
    'Each pixel takes the class most frequent round it. Specks smaller than the radius go, and cover may move.',
  closeOutline: 'Close the outline',
  dropOutline: 'Give the outline up',
  outlineHint: 'Draw round it, or press corner by corner and close on the first.',
  patchHint: 'Press a patch: all that hangs together with it and has its class is painted.',
  tolerance: 'Tolerance',
  toleranceUnit: 'CIELAB',
  stopsAtEdges: 'Stop at sharp edges',
  likenessHint:
    'Press a place: what has its colour and hangs together with it is shown. Set how far it goes, then apply.',
  apply: 'Apply',
  cancel: 'Cancel',
  covers: (pixels: number) => `${formatCount(pixels)} pixels`,
  undo: 'Undo the last gesture',
  redo: 'Do it again',
  view: 'What is shown',
  views: { classes: 'Classes', outlines: 'Outlines', changes: 'Changes', photo: 'Photo' },
  nextView: 'Next way of looking',
  bare: 'Bare photo while held',
  beside: 'Beside the computed classes',
  besideWord: 'Beside',
  magnifier: 'Magnifier',
  map: 'Part of the photo in sight; press to go there',
  working: 'Working…',
  storing: 'Storing…',
  stored: (count: number) => (count === 0 ? 'Nothing corrected yet.' : `${gestures(count)} stored.`),
  cursorAt: (x: number, y: number) => `Cursor at ${x}, ${y}`,
  painted: (name: string, x: number, y: number) => `${name} at ${x}, ${y}`,
  cornerAt: (count: number, x: number, y: number) => `Corner ${count} at ${x}, ${y}`,
  correctedTitle: 'Corrected by hand',
  table: {
    caption: 'Cover as computed and as corrected',
    class: 'Class',
    computed: 'Computed',
    corrected: 'Corrected',
  },
  percent: (coverFraction: number) => `${formatPercent(coverFraction)} %`,
  changedShare: (fraction: number) => `${formatPercent(fraction)} % of the measured ground was changed.`,
  recordTitle: 'Record',
  by: 'Corrected by',
  byHint: 'Your name or letters, kept with every gesture.',
  changed: ({ changedFraction, confirmedFraction }: CorrectionSummary) =>
    `Changed by hand: ${formatPercent(changedFraction)} % of the measured ground` +
    (confirmedFraction > 0 ? `; confirmed: ${formatPercent(confirmedFraction)} %.` : '.'),
  pair: (from: string, to: string, groundFraction: number) =>
    `${from} to ${to}: ${formatPercent(groundFraction)} %`,
  difference: (points: number) => `${formatSigned(points * 100)} points`,
  reason: 'Why (optional)',
  reasonHint: 'e.g. frost on the leaves. Goes with the gestures that have no reason yet.',
  keepReason: 'Keep the reason',
  gestureNames: {
    brush: 'Brush',
    outline: 'Outline',
    patch: 'Patch',
    likeness: 'Like colours',
    smooth: 'Smoothing',
    'change-class': 'Class changed everywhere',
  } as Readonly<Record<string, string>>,
  gesture: (name: string, pixels: number) => `${name}, ${formatCount(pixels)} px`,
  gesturesOf: (count: number) => `The last of ${gestures(count)}`,
  noName: 'no name',
  teach: 'Teach with these corrections',
  teachHint:
    'Puts single labelled pixels, drawn from what you corrected, among the strokes that teach this rating date. Look at fills first: they count like strokes.',
  taught: (count: number) =>
    count === 0
      ? 'Nothing to teach with yet.'
      : `${formatQuantity(count, 'pixel', 'pixels')} put among the strokes of this rating date.`,
  byTreatment: 'By treatment',
  moreWarnings: (count: number) => `${formatCount(count)} more to think of`,
  treatmentCode: (code: string) => `Treatment ${code}`,
  treatmentRow: (name: string, share: string, corrected: number, all: number) =>
    `${name}: ${share} % changed, ${formatCount(corrected)} of ${photos(all)} corrected`,
  hidden: 'Treatments are shown by shuffled codes, so that hands do not know what they correct.',
  reveal: 'Show the names of treatments',
  revealHint: 'That you looked is kept in the record.',
  notices: {
    'other-tab-was-first':
      'Another tab changed this photo first. Your last gesture was not stored; what is stored is shown now. Paint it again if it is still missing.',
    'changed-in-other-tab': 'Another tab changed the corrections of this photo. They are shown now.',
    'not-stored':
      'The browser could not store your last gesture. What is stored is shown now; make room on the device, then paint it again.',
    'nothing-there': 'Nothing is measured there. Choose a place inside the frame.',
  },
  workerStopped: (detail: string) =>
    `The fill was stopped (${detail}). Nothing was changed; try again, or a smaller region.`,
  dismiss: 'Close',
  caution:
    'Corrections are recorded and shown beside what was computed. Correct all treatments with the same care.',
});
