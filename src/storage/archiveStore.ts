import { compareKeys } from '../core/exchange/archiveRecords.ts';
import {
  type ArchiveContents,
  keyParts,
  LARGE_TABLES,
  type LargeTable,
  SMALL_TABLES,
} from './archive/archivedTables.ts';
import type { MergeChanges } from './archive/mergeTypes.ts';
import { putWaiting } from './jobQueue.ts';
import type { Written } from './storageProblem.ts';
import type { CheckedTables, StoreContext } from './storeContext.ts';
import { type RecordOf, TABLE_NAMES, type TableName } from './tables.ts';

/** The large records of one photo; null where there is none. */
export interface LargeRecords {
  readonly photoBytes: RecordOf<'photoBytes'> | null;
  readonly thumbnails: RecordOf<'thumbnails'> | null;
  readonly automaticMasks: RecordOf<'automaticMasks'> | null;
}

/** Who takes an archive in, and what the audit says of it. */
export interface ImportSignature {
  readonly by: string | null;
  readonly reason: string;
  /** When the archive was made: its photos do not exist on this device only. */
  readonly exportedAt: string;
}

interface Staged {
  readonly run: string;
  readonly photoIds: readonly string[];
}

/** Setting that names photos whose bytes are being taken in: they belong to nothing until the import is done. */
const STAGED = 'archive-staged';

const TABLES_OF_IMPORT = TABLE_NAMES.filter((name) => name !== 'photoBytes' && name !== 'thumbnails');

/** Everything that goes into an archive and comes out of one. */
export class ArchiveStore {
  readonly #context: StoreContext;

  constructor(context: StoreContext) {
    this.#context = context;
  }

  /** All records but those of the large tables, sorted by their keys, as of one moment. */
  contents(): Promise<ArchiveContents> {
    return this.#context.read(SMALL_TABLES, async (tables) => {
      const all: [string, unknown[]][] = [];
      for (const name of SMALL_TABLES) {
        const records = await tables[name].all();
        all.push([name, records.sort((a, b) => compareKeys(keyParts(name, a), keyParts(name, b)))]);
      }
      return Object.fromEntries(all) as unknown as ArchiveContents;
    });
  }

  large(photoId: string): Promise<LargeRecords> {
    return this.#context.read(LARGE_TABLES, async (tables) => ({
      photoBytes: (await tables.photoBytes.get(photoId)) ?? null,
      thumbnails: (await tables.thumbnails.get(photoId)) ?? null,
      automaticMasks: (await tables.automaticMasks.get(photoId)) ?? null,
    }));
  }

  /** When photos last left the device, by rating date; their bytes are not read. */
  saved(): Promise<readonly Pick<RecordOf<'photos'>, 'ratingDate' | 'replaced' | 'exportedAt'>[]> {
    return this.#context.read(['photos'], (tables) => tables.photos.all());
  }

  /** Notes that photos have left the device in an archive. */
  markExported(photoIds: readonly string[]): Promise<Written<void>> {
    return this.#context.write(
      ['photos'],
      async ({ photos }) => {
        const exportedAt = this.#context.now();
        for (const id of photoIds) {
          const photo = await photos.get(id);
          if (photo) await photos.put({ ...photo, exportedAt });
        }
      },
      () => ({ photoIds }),
    );
  }

  /**
   * Names the photos whose bytes will be staged, so that they are cleared away if the import never ends.
   *
   * @returns the name of this import, for `finishImport`
   */
  beginImport(photoIds: readonly string[]): Promise<Written<string>> {
    return this.#context.write(
      ['settings'],
      async ({ settings }) => {
        const run = this.#context.newId();
        await settings.put({ name: STAGED, value: { run, photoIds: [...photoIds] } });
        return run;
      },
      () => ({}),
    );
  }

  /** Keeps the large records of one photo; it shows nowhere until the import is done. */
  stage(photoId: string, records: LargeRecords): Promise<Written<boolean>> {
    return this.#context.write(
      ['photos', ...LARGE_TABLES],
      async (tables) => {
        if (await tables.photos.get(photoId)) return false;
        for (const name of LARGE_TABLES) {
          const record = records[name];
          if (record)
            await (tables[name] as CheckedTables<LargeTable>[LargeTable]).put({
              ...record,
              photoId,
            } as never);
        }
        return true;
      },
      () => ({}),
    );
  }

  /** Clears away what an import that never ended had staged. */
  clearStaged(): Promise<Written<void>> {
    return this.#context.write(
      ['settings', 'photos', ...LARGE_TABLES],
      async (tables) => {
        const staged = await tables.settings.get(STAGED);
        if (!staged) return;
        for (const id of (staged.value as Staged).photoIds) {
          if (await tables.photos.get(id)) continue;
          for (const name of LARGE_TABLES) await tables[name].delete(id);
        }
        await tables.settings.delete(STAGED);
      },
      () => ({}),
    );
  }

  /**
   * Writes the changes of a merge: all of them in one transaction, or none. Refused where another tab has cleared away
   * what this import staged.
   *
   * @param run as `beginImport` named it
   * @param masks automatic masks of photos that were here already
   */
  finishImport(
    run: string,
    changes: MergeChanges,
    masks: readonly RecordOf<'automaticMasks'>[],
    { by, reason, exportedAt }: ImportSignature,
  ): Promise<Written<void>> {
    return this.#context.write(
      TABLES_OF_IMPORT,
      async (tables) => {
        const writable = tables as unknown as Record<
          TableName,
          { put(r: unknown): Promise<void>; delete(k: unknown): Promise<void> }
        >;
        const staged = (await tables.settings.get(STAGED))?.value as Staged | undefined;
        if (staged?.run !== run) throw new Error('another tab began or cleared an import meanwhile');
        const now = this.#context.now();
        for (const { table, record } of changes.deletes) {
          const parts = keyParts(table, record);
          await writable[table].delete(parts.length === 1 ? parts[0] : parts);
        }
        for (const { table, record } of changes.puts) {
          const known = table === 'photos' && (await tables.photos.get((record as RecordOf<'photos'>).id));
          if (table !== 'photos') await writable[table].put(record);
          else
            await writable[table].put({
              ...(record as object),
              exportedAt: known ? known.exportedAt : exportedAt,
            });
        }
        for (const mask of masks) await tables.automaticMasks.put(mask);
        for (const { subject, subjectId, before, after } of changes.overruled) {
          const id = this.#context.newId();
          await tables.auditEntries.put({
            id,
            at: now,
            by,
            subject,
            subjectId,
            field: null,
            before,
            after,
            reason,
          });
        }
        await this.#askToMeasure(tables, changes.photoIds, now);
        await tables.settings.delete(STAGED);
      },
      () => {
        const { photoIds, trialIds } = changes;
        return { photoIds, trialIds, correctedIds: photoIds, points: changes.puts.length > 0 };
      },
    );
  }

  /** Photos that came without an automatic figure are measured here. */
  async #askToMeasure(
    tables: CheckedTables<'photos' | 'figures' | 'jobs'>,
    photoIds: readonly string[],
    now: string,
  ): Promise<void> {
    const unmeasured: string[] = [];
    for (const id of photoIds) {
      if (!(await tables.photos.get(id))) continue;
      const figures = await tables.figures.where('photoId', id);
      if (!figures.some(({ current, method }) => current === 1 && method === 'automatic'))
        unmeasured.push(id);
    }
    await putWaiting(tables.jobs, unmeasured, now);
  }
}
