import { catalogue } from './catalogue.ts';
import { formatCount, formatDay, formatLength, formatQuantity } from './format.ts';

const SIDES = ['Left', 'Top', 'Width', 'Height'] as const;

/** What is said of the measured area: frame, ignored areas, grey card, straightened view, fixed places over dates. */
export const area = catalogue('area', {
  frameBy: {
    finder: 'Found by the program, not yet confirmed.',
    'finder-confirmed': 'Found by the program, confirmed by a person.',
    person: 'Marked by hand.',
    file: 'Taken from a file.',
  },
  confidence: (confidence: number) =>
    `Confidence ${confidence.toFixed(2)} of 1: how well the least visible side is seen; no probability.`,
  wholeByChoice: 'The whole photo, by choice: edges and all.',
  inOutline: 'Inside an outline drawn by hand; every pixel counts the same.',
  offered:
    'A frame may be here, and is not sure enough to be used unasked. The whole photo is measured until you decide.',
  notLooked: 'No frame marked: the whole photo is measured, edges and all.',
  sizeMissing:
    'The size of the frame is not known: sharpness and scale cannot be judged, and nothing be told in mm.',
  proposal: {
    command: 'Confirm the frame that was found',
    unconfirmed:
      'The program found this frame and measured inside it. Does the line run along its inner edge?',
    offered: 'A frame may be here (dashed); the whole photo was measured. Is this its inner edge?',
    change: 'Move the corners',
  },
  confirm: 'Confirm',
  useOffered: 'Use this frame',
  wholePhoto: 'Measure the whole photo',
  outline: 'Draw an outline',
  outlineTitle: 'Outline',
  outlineAgain: 'Draw the outline again',
  sizeForDate: (day: string) => `Use for all photos of ${formatDay(day, 'short')}`,
  confirmAll: 'Confirm frames',
  confirmed: (count: number) => `${formatQuantity(count, 'frame', 'frames')} confirmed.`,

  ignored: 'Ignored areas',
  ignoredNone: 'None. A foot, a label or a hose inside the frame is no turf: draw round it.',
  ignoredCount: (count: number) =>
    `${formatQuantity(count, 'area is', 'areas are')} left out of the measured ground.`,
  ignoredName: (index: number) => `Area ${formatCount(index + 1)}`,
  draw: 'Draw an area',
  drawHint:
    'Press on the photo, corner by corner, round what is no turf; close it by pressing the first corner again.',
  outlineHint:
    'Press on the photo, corner by corner, round the ground to be measured; close it by pressing the first corner again.',
  drawKeys: 'By keys: add a square, then move its corners with the arrow keys; Delete takes a corner away.',
  addSquare: 'Add a square',
  close: 'Close the outline',
  cancel: 'Cancel',
  chosen: (name: string) => `Change ${name.toLowerCase()}`,
  remove: 'Remove',
  removeNamed: (name: string) => `Remove ${name.toLowerCase()}`,
  corner: (name: string, index: number, x: number, y: number) =>
    `${name}, corner ${formatCount(index + 1)}, across ${formatLength(x)}, down ${formatLength(y)}`,
  whole: (name: string) => `Move ${name.toLowerCase()}`,
  pointsSoFar: (count: number) => `${formatQuantity(count, 'corner', 'corners')} so far.`,

  card: 'Grey card',
  cardBy: {
    finder: 'Found by the program and used, not yet confirmed.',
    'finder-confirmed': 'Found by the program, confirmed by a person.',
    person: 'Marked by hand.',
    file: 'Taken from a file.',
  },
  cardNone: 'None found. Colours are taken as the camera wrote them.',
  cardNotLooked: 'None marked. It is looked for inside the frame.',
  cardTakenAway: 'None, by choice. Colours are taken as the camera wrote them.',
  cardUnusable:
    'The card cannot be used: it is overexposed, too dark or outside the photo. Colours are taken as they are.',
  cardMark: 'Mark two corners',
  cardHint: 'Press two opposite corners of a rectangle that lies wholly on the card.',
  cardSecond: 'Now the opposite corner.',
  cardField: (side: number) => `${SIDES[side]} (px)`,
  cardSides: SIDES,
  cardTake: 'Take away',
  cardNotOne: 'This is no card',
  cardFields: 'The rectangle in numbers',
  cardSet: 'Set the rectangle',
  balance: {
    caption: 'What balancing by the card does, in linear light',
    channel: 'Channel',
    channels: ['Red', 'Green', 'Blue'] as const,
    gain: 'Gain',
    before: 'Card before',
    after: 'Card after',
    swatchBefore: 'before',
    swatchAfter: 'after',
    gainValue: (gain: number) => `× ${gain.toFixed(3)}`,
    capped: 'A channel would need a gain outside 0.5 to 2 and was held there: this is hardly a grey card.',
  },

  straight: {
    command: 'Straighten: the frame as seen from straight above',
    word: 'Straighten',
    stage: (name: string) => `Photo ${name} inside its frame, as seen from straight above`,
    scale: (mm: number) => (mm >= 1000 ? `${formatLength(mm / 1000)} m` : `${formatLength(mm)} mm`),
    noScale: 'Without the size of the frame there is no scale.',
    onlyLooking: 'For looking: figures are measured in the pixels of the photo.',
  },

  dates: {
    command: 'Compare dates of this place',
    word: 'Dates',
    title: (plot: string) => `Plot ${plot} over the dates`,
    place: (place: number) => `Place ${formatCount(place)}`,
    back: 'Back to the photo',
    none: 'Two dates of this plot and place with a marked frame are needed. Name plot and date of the photos, and mark their frames.',
    before: 'Before',
    after: 'After',
    show: 'Show',
    sideBySide: 'Side by side',
    flip: 'One over the other',
    flipNow: 'Flip',
    shown: (day: string) => `Shown: ${formatDay(day)}`,
    classes: 'Classes',
    turn: 'Turn the later photo by 90°',
    turned: (quarters: number) => `Turned by ${formatCount(90 * quarters)}°`,
    tableCaption: 'Change of cover between the two dates, by patches',
    tableName: 'Change by class',
    scale: (patchMm: number | null, columns: number, rows: number) =>
      patchMm === null
        ? `By patches, ${columns} × ${rows} of the frame; not by pixels.`
        : `By patches of ${formatLength(patchMm)} mm, ${columns} × ${rows} of them; not by pixels.`,
    why: 'A frame laid back by hand lies some millimetres off, and leaves move: what single pixels did cannot be told. Small changes of single patches are placement and classification as well as growth.',
    masks: (before: boolean, after: boolean) =>
      before === after
        ? `Figures are those of the ${before ? 'masks as corrected by hand' : 'automatic masks'}.`
        : `Figures are those of the mask as corrected by hand ${before ? 'before, of the automatic one after' : 'after, of the automatic one before'}.`,
    className: 'Class',
    coverBefore: 'Before, %',
    coverAfter: 'After, %',
    change: 'Change, points',
    up: 'Patches up',
    down: 'Patches down',
    same: 'About the same',
    gain: 'Gains, points',
    loss: 'Losses, points',
    upDown: (points: number) => `Up and down mean a change of ${formatCount(points)} points or more.`,
    leftOut: (count: number) =>
      `${formatQuantity(count, 'patch was', 'patches were')} left out: too little of that ground is measured on one of the dates.`,
    nothing: 'No patch is measured on both dates.',
    working: 'Comparing the patches…',
    waiting: 'One of the photos is still to be measured.',
    otherClasses: 'The two photos were measured with different classes: measure them again to compare them.',
  },

  look: {
    filter: 'Show',
    all: (count: number) => `All (${formatCount(count)})`,
    needsLook: (count: number) => `Needs a look (${formatCount(count)})`,
    nothing: 'No photo needs a look: every frame is confirmed, and none should be taken again.',
    reasons: {
      'frame-unconfirmed': 'Frame to confirm',
      'frame-offered': 'Frame doubtful',
      'frame-missing': 'No frame',
      retake: 'Take it again',
      failed: 'Not measured',
    },
  },
});
