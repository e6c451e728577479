import type { TeachingProposal } from '../classifier/proposeTeachingPhotos.ts';
import type { LopsidedTeaching } from '../classifier/strokesByTreatment.ts';
import { catalogue } from './catalogue.ts';
import { formatCount, formatDay, formatList, formatPercent, formatQuantity } from './format.ts';
import { AGREEMENT_IS_NO_ACCURACY } from './teaching.ts';

const strokes = (count: number) => formatQuantity(count, 'stroke', 'strokes');
const photos = (count: number) => formatQuantity(count, 'photo', 'photos');

/** What the teaching of a rating date says on screen. */
export const teach = catalogue('teach', {
  command: 'Teach with strokes',
  word: 'Teach',
  title: (date: string | null) =>
    date === null ? 'Teach photos without a date' : `Teach ${formatDay(date)}`,
  done: 'Done',
  doneLabel: 'Leave teaching',
  opening: 'Opening…',
  stage: (name: string) =>
    `Photo ${name}, to be painted on. Arrow keys move the brush, with Shift ten times as far; Enter puts a dot.`,
  intro:
    'Paint a few strokes of each class where you are sure, bare ground included. The photo follows, and so do the date’s other photos.',
  readingPhotos: 'Reading the photos…',
  classes: 'Class to paint',
  count: (here: number, inAll: number) =>
    here === inAll ? strokes(inAll) : `${strokes(inAll)}, ${formatCount(here)} on this photo`,
  tools: 'Tool',
  brush: 'Brush',
  eraser: 'Eraser',
  move: 'Move',
  size: 'Brush radius',
  sizeField: 'Brush radius in photo pixels',
  pixels: 'px',
  undo: 'Undo the last stroke',
  redo: 'Do it again',
  smaller: 'Smaller brush',
  larger: 'Larger brush',
  paintClass: (name: string) => `Paint ${name}`,
  stamped: (name: string, x: number, y: number) => `${name} at ${x}, ${y}`,
  cursorAt: (x: number, y: number) => `Brush at ${x}, ${y}`,
  agreementTitle: 'On your strokes',
  agreement: (agreement: number, cells: number) =>
    `${formatPercent(agreement)} % of ${formatCount(cells)} places are called as you painted them, each stroke judged by the others. ${AGREEMENT_IS_NO_ACCURACY}`,
  noAgreement: 'Paint two or more strokes of each class, and some can be held back to judge the others.',
  withoutStrokes: (names: readonly string[]) =>
    `No strokes of ${formatList(names)}: the model never calls what it was not shown.`,
  doubtTitle: 'Look closely',
  doubtHint: 'A few strokes on this photo help most.',
  unusable: 'Strokes that teach nothing',
  strip: (count: number) => `The date’s ${photos(count)}`,
  startHere: 'Start here',
  startWith: (plots: readonly string[], { blocks, treatments }: TeachingProposal) => {
    const groups = [
      ...(blocks.of > 1 ? [`${blocks.covered} of ${formatQuantity(blocks.of, 'block', 'blocks')}`] : []),
      ...(treatments.of > 1
        ? [`${treatments.covered} of ${formatQuantity(treatments.of, 'treatment', 'treatments')}`]
        : []),
    ];
    return `Start with ${formatList(plots)}: ${groups.length > 0 ? `they stand for ${formatList(groups)}, and ` : ''}their light and colours lie far apart.`;
  },
  stripOrder: 'Order',
  byPlot: 'By plot',
  byDoubt: 'Doubtful first',
  doubtful: (count: number) => `${photos(count)} to look at closely`,
  tile: (count: number, cover: string, reasons: readonly string[]) =>
    [...(count > 0 ? [`${strokes(count)}.`] : []), cover, ...reasons].join(' '),
  unread: 'Not read yet.',
  unreadable: 'Cannot be read.',
  measureAll: (count: number) => `Use for all ${photos(count)} of this date`,
  measureAllNoDate: (count: number) => `Use for all ${photos(count)} without a date`,
  used: (count: number, of: number) =>
    count === of
      ? `All ${photos(of)} are measured with this model.`
      : `${formatCount(count)} of ${photos(of)} are measured with this model.`,
  usedOther: (count: number) =>
    `${photos(count)} ${count === 1 ? 'is' : 'are'} measured with strokes as they were before.`,
  queued: (count: number) => `${photos(count)} put in the queue.`,
  startModel: 'Back to the start model',
  takeOverTitle: 'Strokes of other dates',
  takeOver: (date: string, count: number) => `${formatDay(date)}: ${strokes(count)}`,
  takeOverHint:
    'They stay on their photos and teach this date as well. Light and season differ: add strokes of this date too.',
  trouble: (detail: string) =>
    `Teaching stopped (${detail}), mostly for want of memory. Your strokes are kept. Close other tabs, then leave teaching and come back.`,
  treatments: 'Strokes by treatment',
  ofTreatment: (treatment: string, count: number, painted: number, of: number) =>
    `${treatment}: ${strokes(count)} on ${formatCount(painted)} of ${photos(of)}`,
  caution:
    'What is taught supports a judgement. Look through the photos marked doubtful, and check with points before you compare treatments.',
});

/** What to think of when some treatments are painted more than others. */
export const lopsidedTeachingText = catalogue('lopsidedTeachingText', (warning: LopsidedTeaching): string => {
  switch (warning.code) {
    case 'treatments-left-out':
      return `Nothing is painted on photos of ${formatList(warning.treatments)}. Turf that was treated otherwise may look otherwise: paint on a photo of every treatment.`;
    case 'strokes-uneven':
      return `${warning.most.treatment} has ${strokes(warning.most.strokes)}, ${warning.least.treatment} only ${formatCount(warning.least.strokes)}. Paint treatments alike, or the comparison may lean.`;
  }
});
