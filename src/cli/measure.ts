import { readFile, stat } from 'node:fs/promises';
import { dirname } from 'node:path';
import type { Command } from 'commander';
import type { NamedModel } from '../core/cover/measurePhoto.ts';
import { coverClassesFromIds } from '../core/exchange/coverClassesFromIds.ts';
import { writeCoverTable } from '../core/exchange/coverTable.ts';
import {
  type AnnotationFieldProblem,
  type PhotoAnnotations,
  readPhotoAnnotations,
} from '../core/exchange/photoAnnotations.ts';
import { annotationsProblemText, cli } from '../core/text/cli.ts';
import { gapRuleText } from '../core/text/gapRule.ts';
import type { CoverClass } from '../core/trial/coverClass.ts';
import { DEFAULT_CLASSES } from '../core/trial/defaultClasses.ts';
import { type GapRule, gapRuleSchema, LARGEST_GAP_RULE_MM } from '../core/trial/trial.ts';
import { type DateModels, type ModelChoice, modelsByDate, oneModelForAll } from './dateModels.ts';
import { type FindFrames, findFramesOf } from './findFrames.ts';
import { jobsOf } from './jobsOf.ts';
import { type MeasureRequest, measureRun } from './measureRun.ts';
import { readModelFile, saveModels } from './modelFiles.ts';
import { type ListedPhoto, listPhotos } from './photoList.ts';
import { type PhotoThreads, photoThreads } from './photoThreads.ts';
import { readFormerRun } from './runRecord.ts';
import { sha256 } from './sha256.ts';
import { teachModels } from './teachModels.ts';
import { THREAD_SCRIPT } from './threadScript.ts';
import { reasonOf, UsageError } from './usageError.ts';

interface MeasureOptions {
  readonly annotations?: string;
  readonly model?: string;
  readonly saveModel?: string;
  readonly gapRuleMm?: string;
  readonly findFrame?: true;
  readonly frameSizeMm?: string;
  readonly masks?: string;
  readonly out?: string;
  readonly jobs?: string;
  readonly resume?: true;
}

/** Exit codes of a program that a signal ended, as shells give them. */
const SIGNAL_EXIT_CODES = { SIGINT: 130, SIGTERM: 143 } as const;

export function addMeasureCommand(program: Command): void {
  const words = cli.measure;
  program
    .command('measure')
    .summary(words.summary)
    .description(words.description)
    .argument('<photo...>', words.photos)
    .option('--annotations <file>', words.annotations)
    .option('--model <file>', words.model)
    .option('--save-model <file>', words.saveModel)
    .option('--gap-rule-mm <diameter>', words.gapRuleMm)
    .option('--find-frame', words.findFrame)
    .option('--frame-size-mm <width x height>', words.frameSizeMm)
    .option('--masks <folder>', words.masks)
    .option('--out <file>', words.out)
    .option('--jobs <number>', words.jobs)
    .option('--resume', words.resume)
    .action(async (paths: string[], options: MeasureOptions) => {
      process.exitCode = await measure(paths, options);
    });
}

/** @returns the exit code @throws UsageError for what cannot be used */
async function measure(paths: readonly string[], options: MeasureOptions): Promise<number> {
  const words = cli.measure;
  const say = (line: string): void => void process.stderr.write(`${line}\n`);
  const jobs = jobsOf(options.jobs);
  const gapRule = gapRuleOf(options.gapRuleMm);
  const findFrames = findFramesOf(options.findFrame, options.frameSizeMm);
  if (options.resume && options.out === undefined) throw new UsageError(words.resumeWithoutOut);
  if (options.out !== undefined) await checkFile('--out', options.out);
  const { photos, leftAside } = await listPhotos(paths);
  const fromFile = options.model === undefined ? null : await readModelFile(options.model);
  const { annotations, problems } = await annotationsOf(options.annotations, fromFile);
  const painted = photos.filter(({ name }) => annotations.photos.get(name)?.strokes.length);
  const teaches = fromFile === null && painted.length > 0;
  if (options.saveModel !== undefined) {
    if (!teaches) throw new UsageError(fromFile ? words.saveModelWithModel : words.saveModelWithoutStrokes);
    await checkFile('--save-model', options.saveModel);
  }
  const withoutTeaching = startModelFor(annotations);
  if (fromFile === null && !teaches && withoutTeaching.kind === 'refused') {
    throw new UsageError(withoutTeaching.reason);
  }
  const former = options.resume ? await readFormerRun(options.out!) : null;

  for (const [folder, count] of leftAside) say(words.leftAside(count, folder));
  const names = new Set(photos.map(({ name }) => name));
  const elsewhere = [...annotations.photos.keys()].filter((name) => !names.has(name));
  if (elsewhere.length > 0) say(words.annotationsElsewhere(elsewhere));
  if (fromFile && painted.length > 0) say(words.strokesUnused(painted.length));
  const paintedElsewhere = elsewhere.filter((name) => annotations.photos.get(name)?.strokes.length);
  if (!fromFile && paintedElsewhere.length > 0) say(words.strokesElsewhere(paintedElsewhere.length));
  const foreign = [...(former?.rows.keys() ?? [])].filter((name) => !names.has(name));
  if (foreign.length > 0) say(words.foreignRows(foreign.length));

  const atOnce = Math.min(jobs, photos.length);
  const programId = sha256(await readFile(THREAD_SCRIPT));
  const threads = photoThreads(THREAD_SCRIPT, atOnce);
  const stop = new AbortController();
  let signalExitCode = 0;
  const onSignal = (signal: keyof typeof SIGNAL_EXIT_CODES) => {
    if (stop.signal.aborted) process.exit(SIGNAL_EXIT_CODES[signal]); // asked twice: at once
    signalExitCode = SIGNAL_EXIT_CODES[signal];
    stop.abort();
    void threads.close();
  };
  process.on('SIGINT', onSignal).on('SIGTERM', onSignal);
  try {
    const models = fromFile
      ? oneModelForAll({ kind: 'taught', taught: fromFile })
      : teaches
        ? await taughtModels(
            painted,
            annotations,
            { jobs: atOnce, findFrames, saveModel: options.saveModel ?? null },
            {
              threads,
              say,
              stopped: stop.signal,
              otherwise: withoutTeaching,
            },
          )
        : oneModelForAll(withoutTeaching);
    const request: MeasureRequest = {
      photos,
      annotations,
      annotationProblems: problems,
      gapRule,
      findFrames,
      models,
      masksFolder: options.masks ?? null,
      out: options.out ?? null,
      jobs: atOnce,
      former,
      programId,
    };
    const report = await measureRun(request, threads, say, stop.signal);
    if (request.out === null) process.stdout.write(writeCoverTable(report.rows));
    if (stop.signal.aborted) {
      say(words.stopped(report.measured, photos.length, request.out));
      return signalExitCode;
    }
    say(words.finished(report.measured, report.failures.length));
    say(gapRuleText(gapRule));
    for (const { photo, reason } of report.failures) say(words.failureLine(photo, reason));
    return report.failures.length === 0 ? 0 : 1;
  } finally {
    await threads.close();
    process.off('SIGINT', onSignal).off('SIGTERM', onSignal);
  }
}

function gapRuleOf(met: string | undefined): GapRule {
  if (met === undefined) return { kind: 'every-pixel' };
  const checked = gapRuleSchema.safeParse({
    kind: 'small-patches-to-surroundings',
    smallerThanMm: /^\d+([.,]\d+)?$/.test(met) ? Number(met.replace(',', '.')) : Number.NaN,
  });
  if (!checked.success) throw new UsageError(cli.measure.badGapRule(met, LARGEST_GAP_RULE_MM));
  return checked.data;
}

/** The start model, unless it can find none of the classes. */
function startModelFor({ classes }: PhotoAnnotations): ModelChoice {
  if (classes.some(({ startRole }) => startRole !== null)) return { kind: 'start-model' };
  const idsOf = (list: readonly CoverClass[]) => list.map(({ id }) => id);
  return { kind: 'refused', reason: cli.measure.untellable(idsOf(classes), idsOf(DEFAULT_CLASSES)) };
}

/** Teaches on the strokes of the run, and saves what was taught if that is wanted. */
async function taughtModels(
  photos: readonly ListedPhoto[],
  annotations: PhotoAnnotations,
  { jobs, findFrames, saveModel }: { jobs: number; findFrames: FindFrames | null; saveModel: string | null },
  run: {
    threads: PhotoThreads;
    say: (line: string) => void;
    stopped: AbortSignal;
    /** For dates without strokes. */
    otherwise: ModelChoice;
  },
): Promise<DateModels> {
  const { threads, say, stopped, otherwise } = run;
  say(cli.measure.teaching(photos.length));
  const choices = await teachModels({ photos, annotations, findFrames, jobs }, threads, say, stopped);
  const taught = new Map(
    [...choices].flatMap(([date, choice]) => (choice.kind === 'taught' ? [[date, choice.taught]] : [])),
  );
  if (saveModel !== null) await saveModels(saveModel, taught, say);
  return modelsByDate(choices, otherwise);
}

/** Whether a file can stand at a path, before any work is done for it. */
async function checkFile(option: string, path: string): Promise<void> {
  const folder = await stat(dirname(path)).catch(() => null);
  if (!folder?.isDirectory()) throw new UsageError(cli.measure.folderMissing(option, path));
  const present = await stat(path).catch(() => null);
  if (present?.isDirectory()) throw new UsageError(cli.measure.isFolder(option, path));
}

async function annotationsOf(
  path: string | undefined,
  fromFile: NamedModel | null,
): Promise<{ annotations: PhotoAnnotations; problems: readonly AnnotationFieldProblem[] }> {
  if (path === undefined) {
    const classes = fromFile ? coverClassesFromIds(fromFile.model.classes) : DEFAULT_CLASSES;
    return { annotations: { classes, photos: new Map() }, problems: [] };
  }
  const text = await readFile(path, 'utf8').catch((error: unknown) => {
    throw new UsageError(`--annotations "${path}": ${cli.measure.cannotRead(reasonOf(error))}`);
  });
  const reading = readPhotoAnnotations(text);
  if (!reading.ok)
    throw new UsageError(`--annotations "${path}": ${annotationsProblemText(reading.problem)}`);
  const ids = reading.annotations.classes.map(({ id }) => id);
  if (fromFile && ids.join('\n') !== fromFile.model.classes.join('\n')) {
    throw new UsageError(cli.measure.otherClasses(fromFile.model.classes, ids));
  }
  return reading;
}
