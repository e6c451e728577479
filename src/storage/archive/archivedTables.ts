import type { StoredBytes } from '../../core/exchange/archiveRecords.ts';
import { type RecordOf, TABLE_NAMES, TABLES, type TableName } from '../tables.ts';

/*
 * What of the database goes into an archive: every table but the queue of work, which belongs to a device. A table that is
 * added to the database is archived by itself.
 */

/** Tables that stay on the device. */
const DEVICE_TABLES = ['jobs'] as const;
export type ArchivedTable = Exclude<TableName, (typeof DEVICE_TABLES)[number]>;

export const ARCHIVED_TABLES = TABLE_NAMES.filter(
  (name): name is ArchivedTable => !(DEVICE_TABLES as readonly string[]).includes(name),
);

/** Tables that are read and written photo by photo: together their bytes do not fit into memory. */
export const LARGE_TABLES = ['photoBytes', 'thumbnails', 'automaticMasks'] as const;
export type LargeTable = (typeof LARGE_TABLES)[number];
export type SmallTable = Exclude<ArchivedTable, LargeTable>;
export const SMALL_TABLES = ARCHIVED_TABLES.filter(
  (name): name is SmallTable => !(LARGE_TABLES as readonly string[]).includes(name),
);

/** Settings that say how a trial is worked on; the others belong to the device. */
export const ARCHIVED_SETTINGS: readonly string[] = ['strokes-taken-over', 'frame-sizes'];

/** A record as an archive holds it: bytes in files beside it, or as base64. */
export type Archived<Name extends ArchivedTable> = {
  [Field in keyof RecordOf<Name>]: RecordOf<Name>[Field] extends ArrayBuffer
    ? StoredBytes
    : RecordOf<Name>[Field];
};

/** The small tables, whole. */
export type ArchiveContents = { readonly [Name in SmallTable]: readonly RecordOf<Name>[] };

interface BytesField {
  readonly field: string;
  /** Folder and ending of the files that hold it; null for base64 in the record. */
  readonly file: { readonly folder: string; readonly ending: string } | null;
}

/** Where records hold bytes. */
export const BYTES_FIELDS: Readonly<Partial<Record<ArchivedTable, BytesField>>> = {
  photoBytes: { field: 'bytes', file: { folder: 'photos', ending: '' } },
  thumbnails: { field: 'jpeg', file: { folder: 'thumbnails', ending: '.jpg' } },
  automaticMasks: { field: 'bytes', file: { folder: 'masks', ending: '.runs' } },
  corrections: { field: 'layer', file: { folder: 'corrections', ending: '.layer' } },
  correctionPatches: { field: 'patch', file: null },
};

/** The key of a record as a list. */
export function keyParts(table: TableName, record: unknown): (string | number)[] {
  return TABLES[table].key.map((field) => (record as Record<string, string | number>)[field]!);
}

/** The key of a record as one text, for maps. */
export const keyText = (table: TableName, record: unknown): string => JSON.stringify(keyParts(table, record));
