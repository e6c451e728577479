import type { CoverTableProblem } from '../exchange/coverTable.ts';
import { COVER_METHODS } from '../exchange/coverTable.ts';
import type {
  AllowedInField,
  AnnotationFieldProblem,
  AnnotationsProblem,
} from '../exchange/photoAnnotations.ts';
import { formatPercent, formatQuantity } from './format.ts';
import { AGREEMENT_IS_NO_ACCURACY } from './teaching.ts';

const forDate = (date: string | null) => date ?? 'Photos without a date';
const photos = (count: number) => formatQuantity(count, 'photo', 'photos');

/** What the command line says. */
export const cli = {
  description:
    'Percent cover of turf plots from overhead photos, the same figures as in the page. A cover figure is an estimate; ' +
    'product labels and local regulations decide what may be applied.',

  measure: {
    summary: 'measure the cover of photos',
    description:
      'Measures photos and writes a cover table (CSV, a row for each photo and class). Plot and rating date come from ' +
      'the annotations, else from a name such as 2027-04-12_101.jpg, else the date from the camera. Without a frame in ' +
      'the annotations the whole photo is measured. With strokes in the annotations one model is taught for each rating date ' +
      'and used for its photos; otherwise the start model is used. Exit code 0: all measured; 1: some failed, each named; 2: arguments ' +
      'or files that cannot be used.',
    photos: 'photos (JPEG, PNG, WebP) and folders of them; folders inside folders are not searched',
    annotations:
      'frames, ignored areas, neutral references, plots, dates and strokes (JSON, see docs/files.md); strokes teach a model for each rating date',
    model: 'measure all photos with the model of this file (cover-model), whatever strokes there are',
    saveModel:
      'write what the strokes taught to this file; with several rating dates, a file a date beside it (model-2027-05-17.json)',
    gapRuleMm:
      'count bare ground into which no circle this many mm wide fits as the cover nearest to it (default: count every pixel)',
    findFrame:
      'where the annotations name no frame, look for one and measure inside it when it is found without doubt, else measure the whole ' +
      'photo; a grey card inside it balances the colours; flags say which (frame-found, frame-doubtful, frame-missing)',
    frameSizeMm: 'inner size of the frames that are found, e.g. 500x500; without it nothing is known in mm',
    masks: 'write a mask of each photo into this folder: 0 not measured, 1.. the classes in order',
    out: 'write the table to this file instead of standard output',
    jobs: 'photos measured at the same time (default: processor cores less one)',
    resume: 'keep the rows of --out whose photo, settings and program are unchanged, and measure the rest',

    notFound: (path: string) =>
      `There is no file or folder "${path}". Check the path; relative ones start at the folder the command was given in.`,
    noPhotos: (paths: readonly string[]) =>
      `No photos in ${paths.join(', ')}. Name photo files, or folders that hold them directly (.jpg, .jpeg, .png, .webp, .heic).`,
    equalNames: (first: string, second: string) =>
      `"${first}" and "${second}" have the same name, so their rows and masks could not be told apart. Rename one, or measure them in two runs.`,
    badJobs: (met: string, most: number) => `--jobs is a whole number from 1 to ${most}, got "${met}".`,
    badGapRule: (met: string, most: number) =>
      `--gap-rule-mm is a diameter in mm above 0 and up to ${most}, got "${met}".`,
    badFrameSize: (met: string, least: number, most: number) =>
      `--frame-size-mm is width and height in mm such as 500x500, each from ${least} to ${most}, got "${met}".`,
    frameSizeWithoutFind:
      '--frame-size-mm is the size of frames that are found: add --find-frame, or name sizes in the annotations.',
    resumeWithoutOut: '--resume needs --out FILE: the table that is to be completed.',
    folderMissing: (option: string, path: string) =>
      `The folder of ${option} "${path}" does not exist. Make it first.`,
    isFolder: (option: string, path: string) => `${option} "${path}" is a folder. Name a file in it.`,
    saveModelWithModel:
      '--save-model saves what strokes teach; with --model nothing is taught. Leave one of the two away.',
    saveModelWithoutStrokes:
      '--save-model: no photo of this run has strokes in the annotations, so nothing is taught. Name the annotations and the photos painted on.',
    otherClasses: (model: readonly string[], annotations: readonly string[]) =>
      `The model tells apart ${model.join(', ')}; the classes of the annotations are ${annotations.join(', ')}. Name the same classes in the same order, or leave --model away.`,
    cannotWrite: (path: string, reason: string) => `"${path}" cannot be written: ${reason}`,
    cannotRead: (reason: string) => `The file cannot be read: ${reason}`,
    resumeUnreadable: (path: string, reason: string) =>
      `--resume: "${path}" is no cover table of this program (${reason}). Name another --out, or leave --resume away to write it anew.`,

    untellable: (classes: readonly string[], tellable: readonly string[]) =>
      `The classes of the annotations (${classes.join(', ')}) cannot be told apart without teaching: the start model finds ${tellable.join(', ')} only. Name at least one of these among "classes".`,
    leftAside: (count: number, folder: string) =>
      `${formatQuantity(count, 'other file', 'other files')} in ${folder} left aside.`,
    kept: (count: number) => `${photos(count)} already measured, rows kept.`,
    foreignRows: (count: number) =>
      `Rows of ${photos(count)} that are not in this run stay in the table as they were.`,
    annotationsElsewhere: (names: readonly string[]) =>
      `The annotations name ${photos(names.length)} not in this run: ${names.slice(0, 5).join(', ')}${names.length > 5 ? ', …' : ''}.`,
    strokesUnused: (count: number) =>
      `Strokes on ${photos(count)} are not used: all photos are measured with the model of --model.`,
    strokesElsewhere: (count: number) =>
      `Strokes on ${photos(count)} not in this run teach nothing. Name these photos too if they should.`,
    teaching: (count: number) => `Teaching on the strokes of ${photos(count)}.`,
    strokesOf: (photo: string, line: string) => `  ${photo}: ${line}`,
    teachesNothing: (reason: string) => `Its strokes teach nothing: ${reason}`,
    taught: (date: string | null, count: number, modelId: string, agreement: number | null) =>
      `${forDate(date)}: taught on ${photos(count)}, model ${modelId.slice(0, 12)}. ` +
      (agreement === null
        ? 'Too few strokes to hold some back; paint two or more a class.'
        : `On your strokes, ${formatPercent(agreement)} % agreement when held back. ${AGREEMENT_IS_NO_ACCURACY}`),
    classesWithoutStrokes: (date: string | null, classIds: readonly string[]) =>
      `${forDate(date)}: no strokes of ${classIds.join(', ')}, which is therefore never found.`,
    notTaught: (date: string | null, reason: string) =>
      `Nothing could be taught on the strokes of ${date ?? 'photos without a date'}. ${reason} Or take these strokes out of the annotations to use the start model.`,
    modelSaved: (path: string) => `Model written to ${path}.`,
    doubt: (reason: string) => `    ${reason}`,
    decoderDiffers: (largest: number) =>
      `The picture decoder of this machine differs from the one figures are checked with, by up to ${largest} levels of 255. ` +
      'Every row carries the flag decoder-differs.',
    done: (
      at: number,
      of: number,
      photo: string,
      cover: readonly { readonly classId: string; readonly coverFraction: number }[],
      flags: readonly string[],
    ) =>
      `[${at}/${of}] ${photo}  ${cover.map((share) => `${share.classId} ${formatPercent(share.coverFraction)} %`).join(', ')}${flags.length > 0 ? `  (${flags.join(', ')})` : ''}`,
    failed: (at: number, of: number, photo: string, reason: string) =>
      `[${at}/${of}] ${photo}  not measured: ${reason}`,
    samePhoto: (first: string) =>
      `These are the same bytes as ${first}. One photo cannot stand for two; keep the file whose name is right.`,
    gaveUp: (detail: string) =>
      `Measuring broke off (${detail}). Try again with --jobs 1; if that does not help, save the photo at a smaller size.`,
    badAnnotation: (problems: readonly AnnotationFieldProblem[]) =>
      problems.map((problem) => `${annotationFieldText(problem)}`).join(' '),
    finished: (measured: number, failed: number) =>
      failed === 0 ? `${photos(measured)} measured.` : `${photos(measured)} measured, ${failed} not:`,
    failureLine: (photo: string, reason: string) => `  ${photo}: ${reason}`,
    stopped: (measured: number, of: number, out: string | null) =>
      `Stopped: ${measured} of ${photos(of)} measured${out ? `, their rows are in ${out}. The same command with --resume goes on from there` : ''}.`,
  },
};

const ALLOWED: Readonly<Record<AllowedInField, string>> = {
  'known-field':
    'no such field exists; a photo has plot, ratingDate, frame, frameSizeMm, neutral, ignore, strokes, pointCalls',
  text: 'a text of 1 to 200 characters',
  day: 'a day of the calendar, YYYY-MM-DD',
  corners: 'four [x, y] corners: top left, top right, bottom right, bottom left',
  size: '[width, height] of the inner frame in mm, both above 0',
  rectangle: '[left, top, width, height] in pixels, width and height above 0',
  polygons: 'a list of polygons of three or more [x, y] points each',
  instant: 'an instant such as 2027-05-17T09:14:20Z',
  'gap-size': 'a number of millimetres from 0 to 100; 0: every pixel counts',
  class: 'one of the classes of this file',
  radius: 'a number of pixels from 0 to 1000',
  point: '[x, y] in pixels',
  points: 'a list of one or more [x, y] points',
  list: 'a list of objects',
  photo: 'an object with the fields of a photo',
};

/** What is wrong with one field of an annotations file. */
export function annotationFieldText({ field, met, allowed }: AnnotationFieldProblem): string {
  const place = field === '' ? 'Its annotation' : `Annotation "${field}"`;
  return `${place} is ${met}; allowed: ${ALLOWED[allowed]}. Correct it in the annotations file.`;
}

/** Why an annotations file cannot be used. */
export function annotationsProblemText(problem: AnnotationsProblem): string {
  switch (problem.code) {
    case 'not-json':
      return `This is not valid JSON: ${problem.detail}. Correct it, or export the annotations again.`;
    case 'other-type':
      return `"type" is ${problem.met}; an annotations file says "photo-annotations".`;
    case 'bad-version':
      return `"version" is ${problem.met}; allowed: a whole number from 1.`;
    case 'newer-version':
      return `The file has version ${problem.met}; this program reads up to ${problem.newest}. Use a newer version of the program.`;
    case 'bad-classes':
      return `"classes" is ${problem.met}; allowed: a list of 1 to 250 different names of letters, digits, space, "_", "." and "-".`;
    case 'bad-photos':
      return `"photos" is ${problem.met}; allowed: an object with an entry for each photo's name.`;
    case 'unknown-field':
      return `"${problem.field}" is no field of an annotations file; allowed: type, version, classes, photos.`;
  }
}

const CELL_ALLOWED = {
  percent: 'a number from 0 to 100, or nothing',
  count: 'a whole number from 0, or nothing',
  day: 'a day of the calendar as YYYY-MM-DD, or nothing',
  method: `${COVER_METHODS.join(', ')}, or nothing`,
  text: 'a text',
};

/** What is wrong with a cover table. */
export function coverTableProblemText(problem: CoverTableProblem): string {
  switch (problem.code) {
    case 'column-missing':
      return `There is no column "${problem.column}"; found: ${problem.found.join(', ') || 'none'}. Name the columns in the first row.`;
    case 'column-twice':
      return `The column "${problem.column}" is there twice. Remove or rename one.`;
    case 'bad-cell':
      return `Row ${problem.row}, column "${problem.column}": "${problem.met}" cannot be; allowed: ${CELL_ALLOWED[problem.allowed]}. The row is left out.`;
  }
}
