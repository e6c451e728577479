import { readFile } from 'node:fs/promises';
import { fitCoverModel, type TeachingPhoto } from '../core/classifier/coverModel.ts';
import { heldBackAgreement } from '../core/classifier/heldBackAgreement.ts';
import type { NamedModel } from '../core/cover/measurePhoto.ts';
import { coverModelId } from '../core/exchange/coverModel.ts';
import { measureSettingsOf } from '../core/exchange/measureSettingsOf.ts';
import type { PhotoAnnotations } from '../core/exchange/photoAnnotations.ts';
import { cli } from '../core/text/cli.ts';
import { photoProblemText } from '../core/text/photoProblems.ts';
import { strokeProblemText, teachingProblemText } from '../core/text/teaching.ts';
import type { ModelChoice } from './dateModels.ts';
import { type FindFrames, findRequestOf } from './findFrames.ts';
import type { ListedPhoto } from './photoList.ts';
import type { PhotoThreads } from './photoThreads.ts';
import { plotAndDateOf } from './plotAndDate.ts';
import { sha256 } from './sha256.ts';
import { reasonOf } from './usageError.ts';
import { workThrough } from './workThrough.ts';

export interface TeachRequest {
  /** Those of the run that carry strokes. */
  readonly photos: readonly ListedPhoto[];
  readonly annotations: PhotoAnnotations;
  readonly findFrames: FindFrames | null;
  readonly jobs: number;
}

/** A photo with strokes, and the date they are for. */
interface Painted {
  readonly ratingDate: string | null;
  /** Null where the strokes could not be read. */
  readonly teaching: TeachingPhoto | null;
  /** What is to be said of the photo. */
  readonly lines: readonly string[];
}

/**
 * Teaches one model for each rating date with strokes, on all strokes of that date. Photos without a date form one group.
 *
 * A photo whose strokes cannot be read is named and the others teach; a date on which too little was painted is refused.
 */
export async function teachModels(
  { photos, annotations, findFrames, jobs }: TeachRequest,
  threads: PhotoThreads,
  say: (line: string) => void,
  stopped: AbortSignal,
): Promise<Map<string | null, ModelChoice>> {
  const painted = new Map<string, Painted>();
  await workThrough(photos, jobs, stopped, async (photo) => {
    painted.set(photo.name, await paintedOn(photo, annotations, findFrames, threads));
  });
  if (stopped.aborted) return new Map();
  const inOrder = photos.map(({ name }) => ({ name, ...painted.get(name)! }));
  for (const { name, lines } of inOrder) for (const line of lines) say(cli.measure.strokesOf(name, line));

  const choices = new Map<string | null, ModelChoice>();
  for (const date of new Set(inOrder.map(({ ratingDate }) => ratingDate))) {
    const ofDate = inOrder.flatMap(({ ratingDate, teaching }) =>
      ratingDate === date && teaching ? [teaching] : [],
    );
    choices.set(date, await teachDate(date, withoutCopies(ofDate), annotations, say));
  }
  return choices;
}

async function teachDate(
  date: string | null,
  photos: readonly TeachingPhoto[],
  { classes }: PhotoAnnotations,
  say: (line: string) => void,
): Promise<ModelChoice> {
  const words = cli.measure;
  const classIds = classes.map(({ id }) => id);
  const fit = fitCoverModel(photos, classIds);
  if (!fit.ok)
    return { kind: 'refused', reason: words.notTaught(date, teachingProblemText(fit.problem, asItIs)) };
  const { model } = fit;
  const taught: NamedModel = { id: await coverModelId(model, sha256), model };
  const agreement = heldBackAgreement(photos, classIds.length);
  say(words.taught(date, model.photos.length, taught.id, agreement?.agreement ?? null));
  if (fit.classesWithoutStrokes.length > 0) say(words.classesWithoutStrokes(date, fit.classesWithoutStrokes));
  return { kind: 'taught', taught };
}

async function paintedOn(
  { name, path }: ListedPhoto,
  annotations: PhotoAnnotations,
  findFrames: FindFrames | null,
  threads: PhotoThreads,
): Promise<Painted> {
  const words = cli.measure;
  const annotation = annotations.photos.get(name)!;
  const { ratingDate } = plotAndDateOf(name, annotation);
  const nothing = (reason: string): Painted => ({
    ratingDate,
    teaching: null,
    lines: [words.teachesNothing(reason)],
  });
  try {
    const bytes = new Uint8Array(await readFile(path)); // a buffer of its own can change hands
    const photoSha256 = sha256(bytes);
    const settings = measureSettingsOf(annotations, name);
    const { strokes } = annotation;
    const find = findRequestOf(settings, findFrames);
    const outcome = await threads.teach({ bytes, photoSha256, settings, find, strokes }, [bytes.buffer]);
    if (!outcome.ok) return nothing(photoProblemText(outcome.problem));
    return {
      ratingDate: ratingDate ?? outcome.captureDay,
      teaching: outcome.teaching,
      lines: outcome.problems.map((problem) => strokeProblemText(problem, asItIs)),
    };
  } catch (error) {
    return nothing(words.cannotRead(reasonOf(error)));
  }
}

/** The same photo under two names is measured once, so it teaches once. */
function withoutCopies(photos: readonly TeachingPhoto[]): readonly TeachingPhoto[] {
  return photos.filter(
    ({ photoSha256 }, index) => photos.findIndex((other) => other.photoSha256 === photoSha256) === index,
  );
}

/** The command line calls classes by their ids, as its tables do. */
const asItIs = (classId: string): string => classId;
