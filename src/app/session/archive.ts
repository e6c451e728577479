import type { ArchiveProblem } from '../../core/exchange/archiveProblem.ts';
import type { MergePlanning, Side } from '../../storage/archive/mergeTypes.ts';
import { openArchive as openArchiveFile } from '../../zip/openArchive.ts';
import { blobSource } from './archive/blobSource.ts';
import { type ExportReport, exportArchive } from './archive/exportArchive.ts';
import {
  type ImportResult,
  type Inspection,
  importArchive,
  inspectArchive,
} from './archive/importArchive.ts';
import { packagedTrial } from './archive/packagedTrial.ts';
import type { SaveTarget } from './archive/saveTarget.ts';
import { writeTables } from './archive/writeTables.ts';
import { ObservableValue } from './observable.ts';
import type { OpenPart, PartContext } from './sessionPart.ts';
import { sha256Of } from './sha256Of.ts';
import { SOFTWARE_VERSION } from './softwareVersion.ts';

/** Photos of one rating date. */
export interface DateToSave {
  readonly ratingDate: string | null;
  readonly photos: number;
  /** Those that no archive holds yet. */
  readonly onlyHere: number;
}

/** What is under way; one thing at a time. */
export type ArchiveWork =
  | { readonly kind: 'writing' | 'taking-in'; readonly photos: number; readonly photosDone: number }
  | { readonly kind: 'reading'; readonly name: string };

export interface ArchiveState {
  /** In the order of the dates, photos without one last. */
  readonly dates: readonly DateToSave[];
  readonly work: ArchiveWork | null;
}

export type ExportOutcome =
  | { readonly state: 'saved'; readonly report: ExportReport }
  | { readonly state: 'cancelled' }
  | { readonly state: 'failed'; readonly reason: string };

/** An archive that was looked into. */
export type LookedInto =
  | { readonly ok: true; readonly inspection: Inspection }
  | { readonly ok: false; readonly problem: ArchiveProblem | Extract<MergePlanning, { ok: false }> };

export type ImportOutcome =
  | ImportResult
  | { readonly ok: false; readonly problem: { readonly code: 'cancelled' } };

/** The part that saves trials as files and takes them in. */
export const openArchive: OpenPart<Archive> = async (context) => {
  const archive = new Archive(context);
  await archive.start();
  return archive;
};

/** Archives and tables of the trial: written as streams, looked into before they are taken in. */
export class Archive {
  readonly state = new ObservableValue<ArchiveState>({ dates: [], work: null });
  readonly #context: PartContext;
  #working: AbortController | null = null;
  #stopWatching: () => void = () => {};
  #stopped = false;

  constructor(context: PartContext) {
    this.#context = context;
  }

  async start(): Promise<void> {
    let reading = Promise.resolve();
    const read = () => {
      reading = reading.then(() => this.#readDates()).catch((error) => this.#context.fail(error));
    };
    this.#stopWatching = this.#context.photos.subscribe(read);
    await this.#readDates();
  }

  async #readDates(): Promise<void> {
    if (this.#stopped) return;
    const photos = await this.#context.store.archive.saved();
    const dates = new Map<string | null, { photos: number; onlyHere: number }>();
    for (const { ratingDate: own, replaced, exportedAt } of photos) {
      const ratingDate = replaced?.ratingDate ?? own;
      const date = dates.get(ratingDate) ?? { photos: 0, onlyHere: 0 };
      dates.set(ratingDate, date);
      date.photos += 1;
      if (exportedAt === undefined) date.onlyHere += 1;
    }
    const sorted = [...dates].sort(([a], [b]) => (a ?? '9').localeCompare(b ?? '9'));
    this.#set({ dates: sorted.map(([ratingDate, counts]) => ({ ratingDate, ...counts })) });
  }

  /**
   * Writes an archive of the trial, or of one rating date of it.
   *
   * @param target where to; it is finished, or abandoned
   */
  async exportTrial(
    target: SaveTarget,
    request: { readonly ratingDate?: string | null; readonly withLocations: boolean },
  ): Promise<ExportOutcome> {
    const { store, parts } = this.#context;
    const signal = this.#begin({ kind: 'writing', photos: 0, photosDone: 0 });
    const largeRecords = parts.openLargeRecords?.();
    try {
      const trialId = await this.#trialId();
      const report = await exportArchive(store, { trialId, ...request }, target.writable, {
        softwareVersion: SOFTWARE_VERSION,
        now: parts.now,
        signal,
        onProgress: (progress) => this.#set({ work: { kind: 'writing', ...progress } }),
        ...(largeRecords && { largeRecords }),
      });
      await target.finish();
      return { state: 'saved', report };
    } catch (error) {
      await target.abandon();
      return signal.aborted ? { state: 'cancelled' } : { state: 'failed', reason: messageOf(error) };
    } finally {
      await largeRecords?.end();
      this.#end();
      await this.#readDates();
    }
  }

  /** Looks into an archive; nothing changes. */
  async inspect(file: File): Promise<LookedInto> {
    this.#begin({ kind: 'reading', name: file.name });
    try {
      const opening = await openArchiveFile(blobSource(file), sha256Of);
      return opening.ok ? await inspectArchive(this.#context.store, opening.archive) : opening;
    } catch (error) {
      // e.g. the card that held the file was taken out
      return { ok: false, problem: { code: 'zip-damaged', path: null, detail: messageOf(error) } };
    } finally {
      this.#end();
    }
  }

  /**
   * Takes in what was looked into.
   *
   * @param decisions by conflict; what is not decided stays as it is here
   * @param reason what the audit says beside overruled records
   */
  async import(
    inspection: Inspection,
    decisions: ReadonlyMap<string, Side>,
    { by, reason }: { readonly by: string | null; readonly reason: string },
  ): Promise<ImportOutcome> {
    const signal = this.#begin({
      kind: 'taking-in',
      photos: inspection.plan.newPhotos.length,
      photosDone: 0,
    });
    const largeRecords = this.#context.parts.openLargeRecords?.();
    try {
      const result = await importArchive(this.#context.store, inspection, decisions, {
        by,
        reason,
        signal,
        onProgress: (progress) => this.#set({ work: { kind: 'taking-in', ...progress } }),
        ...(largeRecords && { largeRecords }),
      });
      // photos that came without a figure are measured
      if (result.ok) this.#context.goOn();
      return result;
    } catch (error) {
      if (signal.aborted) return { ok: false, problem: { code: 'cancelled' } };
      return { ok: false, problem: { code: 'write-failed', detail: messageOf(error) } };
    } finally {
      await largeRecords?.end();
      this.#end();
    }
  }

  /** Writes all tables. @returns how many, or why not */
  async saveTables(target: SaveTarget, name: string): Promise<number | { readonly reason: string }> {
    const { store, parts } = this.#context;
    try {
      const contents = await store.archive.contents();
      const trial = (await this.#context.openTrial()).trial.get();
      const options = { name, softwareVersion: SOFTWARE_VERSION, now: parts.now() };
      const count = await writeTables(packagedTrial(contents, trial), target.writable, options);
      await target.finish();
      return count;
    } catch (error) {
      await target.abandon();
      return { reason: messageOf(error) };
    }
  }

  /** The code of the trial, for names of files; null without one. */
  async trialCode(): Promise<string | null> {
    const trial = (await this.#context.openTrial()).trial.get();
    return trial.state === 'open' ? trial.plan.trial.code : null;
  }

  /** Stops what is under way; it leaves nothing behind. */
  cancel(): void {
    this.#working?.abort();
  }

  stop(): void {
    this.#stopped = true;
    this.#stopWatching();
    this.cancel();
  }

  async #trialId(): Promise<string | null> {
    const [first] = await this.#context.store.trials.all();
    return first?.id ?? null;
  }

  #begin(work: ArchiveWork): AbortSignal {
    this.#working?.abort();
    this.#working = new AbortController();
    this.#set({ work });
    return this.#working.signal;
  }

  #end(): void {
    this.#working = null;
    this.#set({ work: null });
  }

  #set(change: Partial<ArchiveState>): void {
    this.state.set({ ...this.state.get(), ...change });
  }
}

const messageOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));
