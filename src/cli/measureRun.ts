import { access, mkdir, readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { MeasureSettings } from '../core/cover/measurePhoto.ts';
import type { CoverRow } from '../core/exchange/coverTable.ts';
import type { PhotoRecord } from '../core/exchange/measureRunRecord.ts';
import { measureSettingsOf } from '../core/exchange/measureSettingsOf.ts';
import type { AnnotationFieldProblem, PhotoAnnotations } from '../core/exchange/photoAnnotations.ts';
import { readPhotoFacts } from '../core/photo-file/readPhotoFacts.ts';
import { cli } from '../core/text/cli.ts';
import { photoProblemText } from '../core/text/photoProblems.ts';
import { doubtReasonText } from '../core/text/teaching.ts';
import type { GapRule } from '../core/trial/trial.ts';
import type { DateModels } from './dateModels.ts';
import { type FindFrames, findRequestOf } from './findFrames.ts';
import type { MeasureOutcome } from './measureTask.ts';
import { type ListedPhoto, maskName } from './photoList.ts';
import type { PhotoThreads } from './photoThreads.ts';
import { type PlotAndDate, plotAndDateOf } from './plotAndDate.ts';
import { type FormerRun, rowsSha256, writeRun } from './runRecord.ts';
import { sha256 } from './sha256.ts';
import { reasonOf, UsageError } from './usageError.ts';
import { workThrough } from './workThrough.ts';

/** What a run of `measure` was asked to do. */
export interface MeasureRequest {
  readonly photos: readonly ListedPhoto[];
  readonly annotations: PhotoAnnotations;
  /** Look for frames and grey cards that the annotations do not name; null not to. */
  readonly findFrames: FindFrames | null;
  /** Photos whose annotations cannot be used: they are named and not measured. */
  readonly annotationProblems: readonly AnnotationFieldProblem[];
  /** What becomes of small gaps between plants. */
  readonly gapRule: GapRule;
  /** What the photos of each rating date are measured with. */
  readonly models: DateModels;
  readonly masksFolder: string | null;
  /** Path of the table; null for standard output, which the caller writes. */
  readonly out: string | null;
  readonly jobs: number;
  /** The run to go on from; null for none. */
  readonly former: FormerRun | null;
  /** Names the program that measures; rows of another are measured again. */
  readonly programId: string;
}

export interface MeasureReport {
  /** In the order of the photos; then those of photos of an earlier run that are not in this one. */
  readonly rows: readonly CoverRow[];
  /** Photos with rows, kept ones included. */
  readonly measured: number;
  readonly failures: readonly { readonly photo: string; readonly reason: string }[];
}

/** The table on disk lags behind by no more than this. */
const WRITE_EVERY_MS = 1000;

/**
 * Measures the photos of a request, as many at once as it says, and keeps its table on disk up to date.
 *
 * @param say a line of progress
 * @param stopped once aborted no photo is begun; what is done by then is in the report and on disk
 * @throws UsageError if the table or the folder of masks cannot be written
 */
export async function measureRun(
  request: MeasureRequest,
  threads: PhotoThreads,
  say: (line: string) => void,
  stopped: AbortSignal,
): Promise<MeasureReport> {
  const { photos, annotations, gapRule, models, masksFolder, out, former } = request;
  if (masksFolder) {
    await mkdir(masksFolder, { recursive: true }).catch((error: unknown) => cannotWrite(masksFolder, error));
  }
  const rows = new Map<string, readonly CoverRow[]>();
  const records = new Map<string, PhotoRecord>();
  const failures = new Map<string, string>();
  const firstOfBytes = new Map<string, string>();
  let kept = 0;
  let finished = 0;
  let decoderSaid = false;

  const report = (): MeasureReport => {
    const names = new Set(photos.map(({ name }) => name));
    const foreign = [...(former?.rows ?? [])].filter(([name]) => !names.has(name));
    return {
      rows: [...photos.flatMap(({ name }) => rows.get(name) ?? []), ...foreign.flatMap(([, kept]) => kept)],
      measured: rows.size,
      failures: photos.flatMap(({ name }) => {
        const reason = failures.get(name);
        return reason === undefined ? [] : [{ photo: name, reason }];
      }),
    };
  };

  let lastWrite = performance.now();
  let writing: Promise<void> = Promise.resolve();
  const write = (): Promise<void> => {
    lastWrite = performance.now();
    if (out === null) return writing;
    writing = writing
      .then(() => writeRun(out, report().rows, records))
      .catch((error: unknown) => cannotWrite(out, error));
    return writing;
  };

  const fail = (name: string, reason: string) => {
    failures.set(name, reason);
    finished += 1;
    say(cli.measure.failed(finished, photos.length, name, reason));
  };

  // one after the other, so that which of two equal photos counts as the first does not hang on luck
  let turn: Promise<unknown> = Promise.resolve();
  const admit = (name: string, path: string) => {
    const admitted = turn.then(async () => {
      const bytes = await readFile(path).catch((error: unknown) => reasonOf(error));
      if (typeof bytes === 'string') return { reason: cli.measure.cannotRead(bytes) };
      const photoSha256 = sha256(bytes);
      const first = firstOfBytes.get(photoSha256);
      if (first !== undefined && bytes.length > 0) return { reason: cli.measure.samePhoto(first) };
      firstOfBytes.set(photoSha256, name);
      return { bytes, photoSha256 };
    });
    turn = admitted;
    return admitted;
  };

  const measureOne = async ({ name, path }: ListedPhoto): Promise<void> => {
    const fieldProblems = request.annotationProblems.filter(({ photo }) => photo === name);
    if (fieldProblems.length > 0) return fail(name, cli.measure.badAnnotation(fieldProblems));
    const admitted = await admit(name, path);
    if ('reason' in admitted) return fail(name, admitted.reason);
    const { bytes, photoSha256 } = admitted;

    const annotation = annotations.photos.get(name);
    const plotAndDate = plotAndDateOf(name, annotation);
    const captureDay = () => (models.byDate ? readPhotoFacts(bytes).captureDay : null);
    const choice = models.choose(plotAndDate.ratingDate ?? captureDay());
    if (choice.kind === 'refused') return fail(name, choice.reason);
    const taught = choice.kind === 'taught' ? choice.taught : null;
    const settings: MeasureSettings = {
      ...measureSettingsOf(annotations, name),
      ...(gapRule.kind !== 'every-pixel' && { gapRule }),
      ...(taught && { modelId: taught.id }),
    };
    const find = findRequestOf(settings, request.findFrames);
    const settingsSha256 = sha256(
      JSON.stringify([request.programId, settings, plotAndDate, ...(find ? [find] : [])]),
    );
    const maskPath = masksFolder && join(masksFolder, maskName(name));
    const formerRows = former?.rows.get(name);
    const record = former?.records.get(name);
    if (
      formerRows &&
      record?.photoSha256 === photoSha256 &&
      record.settingsSha256 === settingsSha256 &&
      record.rowsSha256 === rowsSha256(formerRows) &&
      (maskPath === null || (await isThere(maskPath)))
    ) {
      rows.set(name, formerRows);
      records.set(name, record);
      kept += 1;
      finished += 1;
      return;
    }

    let outcome: MeasureOutcome;
    try {
      const own = new Uint8Array(bytes); // a buffer of its own can change hands
      const task = { bytes: own, photoSha256, settings, find, taught, maskPath };
      outcome = await threads.measure(task, [own.buffer]);
    } catch (error) {
      if (!stopped.aborted) fail(name, cli.measure.gaveUp(reasonOf(error)));
      return;
    }
    if (!outcome.ok) return fail(name, photoProblemText(outcome.problem));
    const photoRows = rowsOf(name, plotAndDate, outcome);
    rows.set(name, photoRows);
    records.set(name, {
      photoSha256,
      settingsSha256,
      rowsSha256: rowsSha256(photoRows),
      ...(gapRule.kind !== 'every-pixel' && { gapsSmallerThanMm: gapRule.smallerThanMm }),
    });
    finished += 1;
    if (outcome.decoder.state === 'differs' && !decoderSaid) {
      decoderSaid = true;
      say(cli.measure.decoderDiffers(outcome.decoder.largestDifference));
    }
    say(cli.measure.done(finished, photos.length, name, outcome.cover, outcome.flags));
    for (const reason of outcome.reasons) say(cli.measure.doubt(doubtReasonText(reason, (id) => id)));
    if (performance.now() - lastWrite > WRITE_EVERY_MS) await write();
  };

  await workThrough(photos, request.jobs, stopped, measureOne);
  if (kept > 0) say(cli.measure.kept(kept));
  const end = report();
  await write();
  return end;
}

function cannotWrite(path: string, error: unknown): never {
  if (error instanceof UsageError) throw error;
  throw new UsageError(cli.measure.cannotWrite(path, reasonOf(error)));
}

const isThere = (path: string): Promise<boolean> =>
  access(path).then(
    () => true,
    () => false,
  );

function rowsOf(
  photo: string,
  { plot, ratingDate }: PlotAndDate,
  { cover, flags, modelId, captureDay }: Extract<MeasureOutcome, { ok: true }>,
): CoverRow[] {
  return cover.map(({ classId, pixels, coverFraction }) => ({
    photo,
    plot,
    quadrat: null,
    block: null,
    treatment: null,
    ratingDate: ratingDate ?? captureDay,
    classId,
    pixels,
    coverPercent: 100 * coverFraction,
    coverLow: null,
    coverHigh: null,
    method: 'automatic',
    model: modelId,
    flags,
  }));
}
