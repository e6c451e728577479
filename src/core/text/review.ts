import { catalogue } from './catalogue.ts';
import {
  formatCount,
  formatDay,
  formatInstant,
  formatList,
  formatPercent,
  formatQuantity,
} from './format.ts';

const photos = (count: number) => formatQuantity(count, 'photo', 'photos');

/** What looking through a rating date says on screen. */
export const review = catalogue('review', {
  command: 'Review the masks of this date',
  word: 'Review',
  title: (day: string) => `Review ${formatDay(day)}`,
  date: 'Rating date',
  opening: 'Opening…',
  nothing: 'No measured photo has a rating date yet. Give photos their date, then review them here.',
  stage: (name: string) => `Photo ${name} with its classes`,
  tools: 'Verdict',
  accept: 'Accept',
  correct: 'Correct',
  skip: 'Skip',
  previous: 'Photo before in the queue',
  next: 'Next photo in the queue',
  nextOpen: 'Next photo nobody looked at',
  withdraw: 'Take the verdict back',
  progress: (done: number, all: number) => `${formatCount(done)} of ${photos(all)} looked at`,
  unmeasured: (count: number) => `${photos(count)} of this date cannot be reviewed: not measured.`,
  allDone: 'All photos of this date were looked at.',
  by: 'Reviewed by',
  byHint: 'Your name or letters, kept with every verdict.',
  queue: 'The queue, least trusted first',
  verdicts: { accepted: 'accepted', corrected: 'corrected', skipped: 'skipped' },
  verdictBy: (verdict: string, by: string | null, at: string) =>
    `${verdict}${by ? ` by ${by}` : ''}, ${formatInstant(at)}`,
  outdated: 'The figure has changed since then: look again.',
  notYet: 'not looked at',
  doubted: 'doubted',
  unlike: (fraction: number) =>
    `Its cover differs from the middle of the date’s photos by ${formatPercent(fraction)} % of the ground.`,
  why: 'Why it is here',
  retake: 'The photo should be taken again: it is not fit for measuring.',
  noDoubt: 'No doubt of its own.',
  honest:
    'This queue starts with what looks worst, so it says nothing about the others: photos for point counts are drawn by lot, never from here.',
  signOffTitle: 'Sign off',
  signOffIntro: (day: string) =>
    `Signing off seals ${formatDay(day)}: photos, models, settings and corrections get a hash, and any later change shows.`,
  signOffPart: (done: number, all: number) =>
    `Only ${formatCount(done)} of ${photos(all)} were looked at. You may sign off all the same; the record says so.`,
  unreadable: (names: readonly string[]) =>
    `The corrections of ${formatList(names)} cannot be read, so the date cannot be sealed. Open the photo to be corrected: it says what is wrong and what helps.`,
  signOff: (day: string) => `Sign off ${formatDay(day, 'short')}`,
  nameFirst: 'Type your name under “Reviewed by” to sign off.',
  signed: (by: string, at: string) => `Signed off by ${by}, ${formatInstant(at)}.`,
  amended: (by: string, at: string, reason: string) => `Amended by ${by}, ${formatInstant(at)}: ${reason}`,
  signedPart: (done: number, all: number) => `${formatCount(done)} of ${photos(all)} had been looked at.`,
  unchanged: 'Unchanged since then.',
  changed: 'Changed since sign-off.',
  changedHint: 'A photo, model, setting or correction is no longer what was signed. An amendment says why.',
  hash: 'SHA-256',
  reason: 'Reason for the amendment',
  amend: 'Sign the amendment',
  caution:
    'A signed date is what people saw on that day, no proof that it is right. Check it against a point count.',
});
