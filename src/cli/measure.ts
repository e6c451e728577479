import { readFile, stat } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { dirname } from 'node:path';
import type { Command } from 'commander';
import { writeCoverTable } from '../core/exchange/coverTable.ts';
import {
  type AnnotationFieldProblem,
  type PhotoAnnotations,
  readPhotoAnnotations,
} from '../core/exchange/photoAnnotations.ts';
import { annotationsProblemText, cli } from '../core/text/cli.ts';
import type { CoverClass } from '../core/trial/coverClass.ts';
import { DEFAULT_CLASSES } from '../core/trial/defaultClasses.ts';
import { type MeasureRequest, measureRun } from './measureRun.ts';
import type { MeasureOutcome, MeasureTask } from './measureTask.ts';
import { listPhotos } from './photoList.ts';
import { readFormerRun, sha256 } from './runRecord.ts';
import { threadPool } from './threadPool.ts';
import { reasonOf, UsageError } from './usageError.ts';

interface MeasureOptions {
  readonly annotations?: string;
  readonly masks?: string;
  readonly out?: string;
  readonly jobs?: string;
  readonly resume?: true;
}

const MOST_JOBS = 64;
/** The bundle of measureWorker.ts beside the bundle of main.ts. */
const THREAD_SCRIPT = new URL('./measureWorker.js', import.meta.url);
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
  if (options.resume && options.out === undefined) throw new UsageError(words.resumeWithoutOut);
  if (options.out !== undefined) await checkOut(options.out);
  const { photos, leftAside } = await listPhotos(paths);
  const { annotations, problems } = await annotationsOf(options.annotations);
  if (annotations.classes.every(({ startRole }) => startRole === null)) {
    const idsOf = (classes: readonly CoverClass[]) => classes.map(({ id }) => id);
    throw new UsageError(words.untellable(idsOf(annotations.classes), idsOf(DEFAULT_CLASSES)));
  }
  const former = options.resume ? await readFormerRun(options.out!) : null;

  for (const [folder, count] of leftAside) say(words.leftAside(count, folder));
  const names = new Set(photos.map(({ name }) => name));
  const elsewhere = [...annotations.photos.keys()].filter((name) => !names.has(name));
  if (elsewhere.length > 0) say(words.annotationsElsewhere(elsewhere));
  const withStrokes = photos.filter(({ name }) => annotations.photos.get(name)?.strokes.length);
  if (withStrokes.length > 0) say(words.strokesUnused(withStrokes.length));
  const foreign = [...(former?.rows.keys() ?? [])].filter((name) => !names.has(name));
  if (foreign.length > 0) say(words.foreignRows(foreign.length));

  const request: MeasureRequest = {
    photos,
    annotations,
    annotationProblems: problems,
    masksFolder: options.masks ?? null,
    out: options.out ?? null,
    jobs: Math.min(jobs, photos.length),
    former,
    programId: sha256(await readFile(THREAD_SCRIPT)),
  };
  const pool = threadPool<MeasureTask, MeasureOutcome>(THREAD_SCRIPT, request.jobs);
  const stop = new AbortController();
  let signalExitCode = 0;
  const onSignal = (signal: keyof typeof SIGNAL_EXIT_CODES) => {
    if (stop.signal.aborted) process.exit(SIGNAL_EXIT_CODES[signal]); // asked twice: at once
    signalExitCode = SIGNAL_EXIT_CODES[signal];
    stop.abort();
    void pool.close();
  };
  process.on('SIGINT', onSignal).on('SIGTERM', onSignal);
  try {
    const report = await measureRun(request, pool, say, stop.signal);
    if (request.out === null) process.stdout.write(writeCoverTable(report.rows));
    if (stop.signal.aborted) {
      say(words.stopped(report.measured, photos.length, request.out));
      return signalExitCode;
    }
    say(words.finished(report.measured, report.failures.length));
    for (const { photo, reason } of report.failures) say(words.failureLine(photo, reason));
    return report.failures.length === 0 ? 0 : 1;
  } finally {
    await pool.close();
    process.off('SIGINT', onSignal).off('SIGTERM', onSignal);
  }
}

function jobsOf(met: string | undefined): number {
  if (met === undefined) return Math.max(1, availableParallelism() - 1);
  const jobs = /^\d{1,3}$/.test(met) ? Number(met) : 0;
  if (jobs < 1 || jobs > MOST_JOBS) throw new UsageError(cli.measure.badJobs(met, MOST_JOBS));
  return jobs;
}

async function checkOut(path: string): Promise<void> {
  const folder = await stat(dirname(path)).catch(() => null);
  if (!folder?.isDirectory()) throw new UsageError(cli.measure.outFolderMissing(path));
  const present = await stat(path).catch(() => null);
  if (present?.isDirectory()) throw new UsageError(cli.measure.outIsFolder(path));
}

async function annotationsOf(
  path: string | undefined,
): Promise<{ annotations: PhotoAnnotations; problems: readonly AnnotationFieldProblem[] }> {
  if (path === undefined) {
    return { annotations: { classes: DEFAULT_CLASSES, photos: new Map() }, problems: [] };
  }
  const text = await readFile(path, 'utf8').catch((error: unknown) => {
    throw new UsageError(`--annotations "${path}": ${cli.measure.cannotRead(reasonOf(error))}`);
  });
  const reading = readPhotoAnnotations(text);
  if (!reading.ok)
    throw new UsageError(`--annotations "${path}": ${annotationsProblemText(reading.problem)}`);
  return reading;
}
