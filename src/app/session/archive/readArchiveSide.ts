import type { ArchiveProblem } from '../../../core/exchange/archiveProblem.ts';
import {
  type ArchiveContents,
  type Archived,
  type ArchivedTable,
  BYTES_FIELDS,
  keyText,
  LARGE_TABLES,
  type LargeTable,
  SMALL_TABLES,
} from '../../../storage/archive/archivedTables.ts';
import { checkArchived, storedRecord } from '../../../storage/archive/archiveRecordCheck.ts';
import type { MergeSide } from '../../../storage/archive/mergeTypes.ts';
import type { RecordOf } from '../../../storage/tables.ts';
import type { OpenArchive } from '../../../zip/openArchive.ts';

/** A record that is left out, and why. */
export interface LeftOutRecord {
  readonly table: string;
  readonly index: number;
  readonly reason: string;
}

/** An archive's records, checked; photos and masks still stand in their files. */
export interface ArchiveSide extends MergeSide {
  /** By photo id. */
  readonly large: { readonly [Name in LargeTable]: ReadonlyMap<string, Archived<Name>> };
  readonly leftOut: readonly LeftOutRecord[];
}

export type SideReading =
  | { readonly ok: true; readonly side: ArchiveSide }
  | { readonly ok: false; readonly problem: ArchiveProblem };

/**
 * Reads all tables of an archive. A table that is damaged refuses the archive, since half of its records would be missing
 * unnoticed; a record that cannot be is left out and named.
 */
export async function readArchiveSide(archive: OpenArchive): Promise<SideReading> {
  const leftOut: LeftOutRecord[] = [];
  const layerSha256 = new Map<string, string>();
  const contents: Partial<Record<string, readonly unknown[]>> = {};
  const listed = new Map(archive.manifest.files.map((file) => [file.path, file]));

  const checked = async <Name extends ArchivedTable>(
    table: Name,
  ): Promise<Archived<Name>[] | ArchiveProblem> => {
    const read = await archive.table(table);
    if (!read.ok) return read.problem;
    const seen = new Set<string>();
    return read.records.flatMap((record, index) => {
      const check = checkArchived(table, record);
      const names = check.ok ? namesOf(table, check.record) : [];
      if (check.ok && !names.some((name) => seen.has(name))) {
        for (const name of names) seen.add(name);
        return [check.record];
      }
      leftOut.push({ table, index, reason: check.ok ? 'there twice' : check.reason });
      return [];
    });
  };

  for (const table of SMALL_TABLES) {
    const records = await checked(table);
    if ('code' in records) return { ok: false, problem: records };
    const whole: unknown[] = [];
    for (const [index, record] of records.entries()) {
      let bytes: Uint8Array<ArrayBuffer> | null = null;
      const path = fileOf(table, record);
      if (path !== null) {
        const file = await archive.file(path);
        if (!file.ok) {
          leftOut.push({ table, index, reason: `${path}: ${file.problem.code}` });
          continue;
        }
        bytes = file.bytes;
      }
      const stored = storedRecord(table, record, bytes);
      if (table === 'corrections') {
        layerSha256.set((stored as RecordOf<'corrections'>).photoId, listed.get(path!)?.sha256 ?? '');
      }
      whole.push(stored);
    }
    contents[table] = whole;
  }
  const large: Record<string, ReadonlyMap<string, unknown>> = {};
  for (const table of LARGE_TABLES) {
    const records = await checked(table);
    if ('code' in records) return { ok: false, problem: records };
    large[table] = new Map(records.map((record) => [record.photoId, record]));
  }
  return {
    ok: true,
    side: {
      contents: contents as unknown as ArchiveContents,
      layerSha256,
      large: large as unknown as ArchiveSide['large'],
      leftOut,
    },
  };
}

/** The file that holds the bytes of a record; null for one without. */
export function fileOf(table: ArchivedTable, record: unknown): string | null {
  const field = BYTES_FIELDS[table]?.field;
  if (field === undefined) return null;
  return (record as Record<string, { file?: string }> | undefined)?.[field]?.file ?? null;
}

/** What no two records of a table have in common: the key, and of photos the bytes as well. */
function namesOf(table: ArchivedTable, record: unknown): string[] {
  const key = keyText(table, record);
  return table === 'photos' ? [key, (record as RecordOf<'photos'>).sha256] : [key];
}
