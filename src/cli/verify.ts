import { type FileHandle, open } from 'node:fs/promises';
import type { Command } from 'commander';
import {
  type ArchivedFigures,
  type ArchivedPhoto,
  archivedFigures,
  FIGURE_TABLES,
  type FigureTable,
} from '../core/exchange/archiveFigures.ts';
import type { ArchiveProblem } from '../core/exchange/archiveProblem.ts';
import { archiveProblemText, verifyWords as words } from '../core/text/archive.ts';
import { photoProblemText } from '../core/text/photoProblems.ts';
import { type OpenArchive, openArchive } from '../zip/openArchive.ts';
import { fileSource } from './fileSource.ts';
import { jobsOf } from './jobsOf.ts';
import { type PhotoThreads, photoThreads } from './photoThreads.ts';
import { sha256 } from './sha256.ts';
import { THREAD_SCRIPT } from './threadScript.ts';
import { reasonOf, UsageError } from './usageError.ts';
import type { FigureVerdict, VerifyTask } from './verifyTask.ts';
import { workThrough } from './workThrough.ts';

/** A figure that differs by more, in percentage points, does not match. */
const TOLERANCE_POINTS = 0.01;

export function addVerifyCommand(program: Command): void {
  program
    .command('verify')
    .summary(words.summary)
    .description(words.description)
    .argument('<archive>', words.archive)
    .option('--jobs <number>', words.jobs)
    .action(async (path: string, options: { readonly jobs?: string }) => {
      process.exitCode = await verify(path, jobsOf(options.jobs));
    });
}

/** @returns the exit code @throws UsageError for a file that cannot be used */
async function verify(path: string, jobs: number): Promise<number> {
  const file = await open(path).catch((error: unknown) => {
    throw new UsageError(words.cannotRead(path, reasonOf(error)));
  });
  try {
    return await verifyFile(path, file, jobs);
  } finally {
    await file.close();
  }
}

async function verifyFile(path: string, file: FileHandle, jobs: number): Promise<number> {
  const say = (line: string): void => void process.stderr.write(`${line}\n`);
  const refuse = (problem: ArchiveProblem): never => {
    throw new UsageError(words.refused(path, archiveProblemText(problem)));
  };
  const opening = await openArchive(await fileSource(file), sha256);
  if (!opening.ok) return refuse(opening.problem);
  const { archive } = opening;
  const tables: Record<string, readonly unknown[]> = {};
  for (const name of FIGURE_TABLES) {
    const table = await archive.table(name);
    if (!table.ok) return refuse(table.problem);
    tables[name] = table.records;
  }
  const figures = archivedFigures(tables as Record<FigureTable, readonly unknown[]>);
  const tally = new Tally();
  for (const remark of archive.remarks) tally.trouble(archiveProblemText(remark));
  for (const { table, index, field } of figures.unreadable)
    tally.trouble(words.unreadable(table, index, field));
  // files that no figure rests on are part of the archive all the same
  for (const { path: own } of archive.manifest.files) {
    if (!/^(photos|masks|corrections)\//.test(own)) continue;
    const read = archive.remarks.some((remark) => 'path' in remark && remark.path === own)
      ? null
      : await archive.file(own);
    if (read && !read.ok) tally.damaged(own, archiveProblemText(read.problem));
  }
  const threads = photoThreads(THREAD_SCRIPT, Math.min(jobs, Math.max(1, figures.photos.length)));
  try {
    let done = 0;
    await workThrough(figures.photos, jobs, new AbortController().signal, async (photo) => {
      await verifyPhoto(archive, photo, figures, threads, tally);
      done += 1;
      say(words.progress(done, figures.photos.length, photo.name));
    });
  } finally {
    await threads.close();
  }
  process.stdout.write(tally.report(path, archive.manifest));
  return tally.isSound ? 0 : 1;
}

async function verifyPhoto(
  archive: OpenArchive,
  photo: ArchivedPhoto,
  { models }: ArchivedFigures,
  threads: PhotoThreads,
  tally: Tally,
): Promise<void> {
  const read = async (path: string | undefined) => {
    if (path === undefined || tally.isDamaged(path)) return null;
    const file = await archive.file(path);
    return file.ok ? file.bytes : null;
  };
  const bytes = photo.file === null ? null : await read(photo.file);
  if (!bytes) return tally.photoMissing(photo);
  const layer = await read(photo.corrections?.file);
  const mask = await read(photo.mask?.file);
  const task: VerifyTask = {
    bytes,
    photoSha256: photo.sha256,
    figures: photo.figures,
    models: new Map(
      photo.figures.flatMap(({ settings: { modelId } }) => {
        const model = modelId === undefined ? undefined : models.get(modelId);
        return model ? [[modelId!, model] as const] : [];
      }),
    ),
    corrections: layer && { bytes: layer, classIds: photo.corrections!.classIds },
    pointSets: photo.pointSets,
    mask: mask && { figureId: photo.mask!.figureId, bytes: mask },
  };
  const outcome = await threads.verify(task, [bytes.buffer]).catch((error: unknown) => String(error));
  if (typeof outcome === 'string') return tally.photoFailed(photo, outcome);
  if (!outcome.ok) {
    const { problem } = outcome;
    const isOfCorrections = problem.code.startsWith('corrections-');
    return tally.photoFailed(
      photo,
      isOfCorrections ? words.badCorrections : photoProblemText(problem as never),
    );
  }
  const byId = new Map(photo.figures.map((figure) => [figure.id, figure]));
  for (const verdict of outcome.verdicts) tally.figure(photo, byId.get(verdict.id)!, verdict);
}

/** What was found so far. */
class Tally {
  readonly #lines: string[] = [];
  readonly #damaged = new Set<string>();
  readonly #methods = new Map<string, { matching: number; all: number }>();
  readonly #notMade = new Map<string, number>();
  #largest = 0;
  #masks = { same: 0, all: 0 };
  #trouble = 0;

  get isSound(): boolean {
    return this.#trouble === 0;
  }

  trouble(line: string): void {
    this.#trouble += 1;
    this.#lines.push(line);
  }

  damaged(path: string, line: string): void {
    this.#damaged.add(path);
    this.trouble(line);
  }

  isDamaged(path: string): boolean {
    return this.#damaged.has(path);
  }

  photoMissing({ name, figures }: ArchivedPhoto): void {
    this.trouble(words.photoMissing(name, figures.length));
  }

  photoFailed({ name, figures }: ArchivedPhoto, reason: string): void {
    this.trouble(words.photoFailed(name, figures.length, reason));
  }

  figure(photo: ArchivedPhoto, figure: ArchivedPhoto['figures'][number], verdict: FigureVerdict): void {
    const named = words.figure(photo.name, figure.method, figure.measuredAt, figure.softwareVersion);
    if (verdict.state === 'not-made') {
      this.#notMade.set(verdict.code, (this.#notMade.get(verdict.code) ?? 0) + 1);
      // earlier figures of corrections that were carried on cannot be made again, and none is said to be
      const isExpected =
        verdict.code === 'not-of-this-photo' || (verdict.code === 'corrections-changed' && !figure.isCurrent);
      if (!isExpected) this.trouble(`${named}: ${words.notMade[verdict.code]}`);
      return;
    }
    const count = this.#methods.get(figure.method) ?? { matching: 0, all: 0 };
    this.#methods.set(figure.method, count);
    count.all += 1;
    this.#largest = Math.max(this.#largest, verdict.differencePoints);
    if (verdict.differencePoints <= TOLERANCE_POINTS) count.matching += 1;
    else this.trouble(`${named}: ${words.differs(verdict.differencePoints)}`);
    if (verdict.sameLabels === null) return;
    this.#masks.all += 1;
    if (verdict.sameLabels) this.#masks.same += 1;
    else this.trouble(`${named}: ${words.otherLabels}`);
  }

  report(path: string, manifest: OpenArchive['manifest']): string {
    const lines = [
      words.head(path, manifest.trial?.name ?? null, manifest.createdAt, manifest.softwareVersion),
      ...[...this.#methods].map(([method, { matching, all }]) => words.method(method, matching, all)),
      words.masks(this.#masks.same, this.#masks.all),
      words.largest(this.#largest),
      ...[...this.#notMade].map(([code, count]) =>
        words.notMadeCount(code as keyof typeof words.notMade, count),
      ),
      ...this.#lines.map((line) => `- ${line}`),
      this.isSound ? words.sound : words.unsound(this.#trouble),
    ];
    return `${lines.join('\n')}\n`;
  }
}
