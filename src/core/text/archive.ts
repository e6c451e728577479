import type { NotMadeCode } from '../cover/figureAgain.ts';
import type { ArchiveProblem } from '../exchange/archiveProblem.ts';
import { catalogue } from './catalogue.ts';
import { formatBytes, formatCount, formatDay, formatQuantity } from './format.ts';

const photos = (count: number) => formatQuantity(count, 'photo', 'photos');
const figures = (count: number) => formatQuantity(count, 'figure', 'figures');

/** Why an archive, or a file of it, cannot be used, and what to do. */
export const archiveProblemText = catalogue('archiveProblemText', (problem: ArchiveProblem): string => {
  switch (problem.code) {
    case 'not-a-zip':
      return 'This is no archive: archives are zip files that this program writes. Choose another file.';
    case 'cut-off':
      return 'The file has no end: it was downloaded or copied in part. Fetch or copy it again.';
    case 'zip-damaged':
      return problem.path === null
        ? `The zip file is damaged (${problem.detail}). Fetch or copy it again.`
        : `${problem.path} is damaged (${problem.detail}). Fetch or copy the archive again.`;
    case 'foreign':
      return 'This zip file holds no trial of this program. Choose an archive that was saved here on the Report screen.';
    case 'newer-version':
      return `The archive was written by a newer version of this program (${problem.of} version ${problem.met}; known here: ${problem.newest}). Update this program and open it again.`;
    case 'bad-manifest':
      return `The list of contents of the archive says something that cannot be${problem.field === '' ? '' : ` at ${problem.field}`} (${problem.met}). Fetch or copy it again.`;
    case 'too-many-files':
      return `The archive holds ${formatCount(problem.met)} files; at most ${formatCount(problem.most)} are read. Save the trial in parts, by rating date.`;
    case 'unsafe-path':
      return `The archive names a file outside itself ("${problem.path}"). This program writes none such: do not use it.`;
    case 'path-twice':
      return `The archive holds "${problem.path}" twice. This program writes none such: do not use it.`;
    case 'encrypted':
      return `"${problem.path}" is encrypted. Unpack the archive with its password and choose the file inside.`;
    case 'too-large':
      return `"${problem.path}" would take ${formatBytes(problem.bytes)}; at most ${formatBytes(problem.mostBytes)} are read.`;
    case 'too-dense':
      return `"${problem.path}" is packed ${formatCount(problem.ratio)} to 1; at most ${formatCount(problem.most)} to 1 is read. It may be meant to fill the device: do not use it.`;
    case 'file-missing':
      return `"${problem.path}" is named in the list of contents and not in the archive.`;
    case 'file-unlisted':
      return `"${problem.path}" is in the archive and not in its list of contents; it is left aside.`;
    case 'file-changed':
      return `"${problem.path}" is not what was saved: its check sum differs. Fetch or copy the archive again.`;
    case 'bad-table':
      return `The table "${problem.path}" cannot be read (${problem.detail}). Fetch or copy the archive again.`;
  }
});

/** What `verify` says on the command line. */
export const verifyWords = {
  summary: 'make every figure of an archive again and compare',
  description:
    'Measures the archived photos again with the archived settings, models, corrections and point calls, and says which ' +
    'stored figures match to 0.01 percentage points and which masks byte by byte. Figures adjusted for the errors of masks rest ' +
    'on many photos and are not made again. Exit code 0: all match; 1: some do not, or files are damaged, each named; 2: no ' +
    'archive that can be used.',
  archive: 'archive of a trial (zip), or a part of one',
  jobs: 'photos measured at the same time (default: processor cores less one)',
  cannotRead: (path: string, reason: string) => `"${path}" cannot be read: ${reason}`,
  refused: (path: string, reason: string) => `"${path}": ${reason}`,
  unreadable: (table: string, index: number, field: string) =>
    `record ${index + 1} of ${table} cannot be read (${field}): what it says is not verified`,
  progress: (done: number, all: number, name: string) => `[${done}/${all}] ${name}`,
  photoMissing: (name: string, count: number) =>
    `${name}: the photo is missing or damaged, so ${figures(count)} cannot be made again`,
  photoFailed: (name: string, count: number, reason: string) =>
    `${name}: ${figures(count)} cannot be made again. ${reason}`,
  badCorrections: 'Its corrections cannot be read.',
  figure: (photo: string, method: string, measuredAt: string, softwareVersion: string) =>
    `${photo}, ${method} figure of ${measuredAt} (version ${softwareVersion})`,
  differs: (points: number) => `differs by ${points.toFixed(3)} percentage points`,
  otherLabels: 'the mask made again is not the stored one',
  notMade: {
    'model-missing': 'the model it names is not in the archive',
    'corrections-changed': 'its corrections have been carried on since',
    'points-missing': 'the point calls it was made of are not in the archive',
    'not-of-this-photo': 'it rests on other photos or on an eye',
    'not-measurable': 'the photo cannot be measured with its settings',
  } satisfies Record<NotMadeCode, string>,
  head: (path: string, trial: string | null, createdAt: string, softwareVersion: string) =>
    `${path}: ${trial ?? 'photos without a trial'}, saved ${createdAt} by version ${softwareVersion}`,
  method: (method: string, matching: number, all: number) =>
    `${method}: ${formatCount(matching)} of ${figures(all)} match to 0.01 percentage points`,
  masks: (same: number, all: number) =>
    all === 0
      ? 'no masks in the archive'
      : `masks: ${formatCount(same)} of ${formatCount(all)} equal byte by byte`,
  largest: (points: number) =>
    `largest difference: ${points === 0 ? '0' : points.toPrecision(2)} percentage points`,
  notMadeCount: (code: NotMadeCode, count: number) =>
    `not made again: ${figures(count)} (${verifyWords.notMade[code]})`,
  sound: 'All figures that rest on these photos were made again and match.',
  unsound: (count: number) =>
    `${formatQuantity(count, 'thing does', 'things do')} not match or cannot be made again.`,
} as const;

const dated = (date: string | null) => (date === null ? 'photos without a date' : formatDay(date));

/** What the files section of the Report screen says. */
export const archiveText = catalogue('archiveText', {
  title: 'Files',
  opening: 'Opening…',
  save: {
    title: 'Save an archive',
    intro:
      'One zip file with everything, photos byte for byte. It opens here again on any device, and its figures can be made again years later.',
    what: 'What to save',
    whole: (count: number) => `The whole trial (${photos(count)})`,
    date: (date: string | null, count: number) =>
      date === null
        ? `Only photos without a date (${formatCount(count)})`
        : `Only ${formatDay(date)} (${photos(count)})`,
    locations: 'Keep the positions that phones write into photos',
    locationsHint:
      'Without the tick they are taken out of the copies in the archive; the photos here stay as they are, and the archive says so.',
    run: 'Save archive',
    cancel: 'Cancel',
    progress: (done: number, all: number) => `Writing ${formatCount(done)} of ${photos(all)}`,
    label: 'Progress of writing',
    done: (count: number, bytes: number) => `Saved: ${photos(count)}, ${formatBytes(bytes)}.`,
    placesTakenOut: (count: number) => `Positions were taken out of ${photos(count)}.`,
    withoutBytes: (names: readonly string[]) =>
      `The browser no longer holds ${photos(names.length)}: ${names.join(', ')}. Their figures are in the archive, the photos are not.`,
    changed: (names: readonly string[]) =>
      `The bytes of ${photos(names.length)} are not those that were taken in: ${names.join(', ')}. The device may be failing; keep the originals.`,
    cancelled: 'Cancelled; nothing was saved.',
    failed: (reason: string) => `The archive could not be written: ${reason}`,
    onlyHere: (count: number) =>
      count === 0
        ? 'Every photo here has been saved in an archive.'
        : `${photos(count)} ${count === 1 ? 'exists' : 'exist'} only on this device.`,
    nothing: 'There is nothing to save yet: plan a trial or add photos first.',
    fileName: 'archive',
  },
  open: {
    title: 'Open an archive',
    intro: 'What it would bring is shown first. Nothing changes until you take it in.',
    choose: 'Choose archive',
    reading: (name: string) => `Looking into ${name}…`,
    refused: (name: string, reason: string) => `${name} was not opened; nothing has changed here. ${reason}`,
    otherTrial: (here: string, there: string) =>
      `It is an archive of “${there}”; here is “${here}”. One browser profile works on one trial: open it in another profile, or save this trial and remove it first.`,
    head: (trial: string | null, createdAt: string) =>
      `${trial ?? 'Photos without a trial'}, saved ${formatDay(createdAt.slice(0, 10))}`,
    part: (date: string | null, others: readonly (string | null)[]) =>
      others.length === 0
        ? `Part of the trial: ${dated(date)}.`
        : `Part of the trial: ${dated(date)}. Not in this file: ${others.map(dated).join(', ')}.`,
    brings: 'What it brings',
    photosNew: (count: number) => `${photos(count)} new here`,
    photosContinued: (count: number) => `${photos(count)} carried on there: taken over`,
    photosBehind: (count: number) => `${photos(count)} carried on here: nothing to take`,
    photosSame: (count: number) => `${photos(count)} the same`,
    plan: {
      none: null,
      new: 'The trial plan',
      same: null,
      continued: 'Changes of the plan made there',
      behind: null,
      conflict: null,
    } as const,
    scoresNew: (count: number) => formatQuantity(count, 'score', 'scores'),
    records: (count: number) =>
      `${formatQuantity(count, 'other record', 'other records')} (points, models, changes)`,
    nothingNew: 'Everything in it is here already. Nothing to take in.',
    conflicts: (count: number) =>
      `${formatQuantity(count, 'difference needs', 'differences need')} your decision`,
    conflictsHint:
      'Both sides have been worked on, and neither follows from the other. What you do not choose stays in its archive.',
    all: 'For all',
    here: 'Keep what is here',
    there: 'Take the archive’s',
    aspects: { place: 'plot or date', mask: 'frame, model or corrections', strokes: 'strokes' },
    photo: (name: string, aspects: readonly string[]) => `${name}: ${aspects.join('; ')}`,
    photoState: (state: {
      readonly plot: string | null;
      readonly ratingDate: string | null;
      readonly gestures: number;
      readonly correctedBy: string | null;
      readonly strokes: number;
    }) => {
      const parts = [
        state.plot === null ? 'no plot' : `plot ${state.plot}`,
        state.ratingDate === null ? 'no date' : formatDay(state.ratingDate, 'short'),
        state.gestures === 0 ? 'no corrections' : formatQuantity(state.gestures, 'correction', 'corrections'),
        ...(state.correctedBy ? [`last by ${state.correctedBy}`] : []),
        ...(state.strokes > 0 ? [formatQuantity(state.strokes, 'stroke', 'strokes')] : []),
      ];
      return parts.join(', ');
    },
    planConflict: (fields: readonly string[]) =>
      `The plan differs in ${formatQuantity(fields.length, 'place', 'places')}: ${fields.slice(0, 6).join(', ')}${fields.length > 6 ? ', …' : ''}`,
    planState: (changedAt: string) => `changed ${formatDay(changedAt.slice(0, 10), 'short')}`,
    scoreConflict: (variable: string, plot: string, date: string) =>
      `Score ${variable}, plot ${plot}, ${formatDay(date, 'short')}`,
    scoreState: (value: number | null) => (value === null ? 'not to be scored' : String(value)),
    weatherConflict: (days: readonly string[]) => `Weather of ${formatQuantity(days.length, 'day', 'days')}`,
    who: 'Your name, for the record of changes',
    run: 'Take in',
    close: 'Leave it',
    progress: (done: number, all: number) => `Taking in ${formatCount(done)} of ${photos(all)}`,
    label: 'Progress of taking in',
    done: (count: number) => `Taken in: ${photos(count)} new.`,
    cancelled: 'Cancelled; nothing has changed here.',
    failed: (reason: string) => `Nothing was taken in: ${reason}`,
    full: 'there is no room left in the browser’s storage. Free some space on the device and try again.',
    missing: (names: readonly string[]) => `Not in the archive and left out: ${names.join(', ')}.`,
    damaged: (name: string, reason: string) => `${name} was left out. ${reason}`,
    leftOut: (count: number) =>
      `${formatQuantity(count, 'record', 'records')} of the archive cannot be read and ${count === 1 ? 'is' : 'are'} left out.`,
    reason: (name: string) => `decided when taking in ${name}`,
  },
  tables: {
    title: 'Tables for statistics software',
    intro:
      'Every table as CSV with a description of all columns and units (a tabular data package), and an R script that makes the comparison again.',
    run: 'Save tables',
    fileName: 'tables',
    failed: (reason: string) => `The tables could not be written: ${reason}`,
    done: (count: number) => `Saved: ${formatQuantity(count, 'table', 'tables')}.`,
    readme: (
      caution: string,
    ) => `Tables of one field trial, as a tabular data package: datapackage.json describes every column.
An empty cell means not known, never 0. In R: read.csv("cover.csv"); the script analysis.R makes comparison.csv again
(Rscript analysis.R in this folder). ${caution}
`,
  },
} as const);
