import { MANIFEST_PATH } from '../../../core/exchange/archiveEntries.ts';
import {
  type ArchiveFile,
  type ArchiveManifest,
  writeArchiveManifest,
} from '../../../core/exchange/archiveManifest.ts';
import { type StoredBytes, tablePath, writeRecordTable } from '../../../core/exchange/archiveRecords.ts';
import { withoutPosition } from '../../../core/photo-file/withoutPosition.ts';
import {
  type ArchiveContents,
  type ArchivedTable,
  BYTES_FIELDS,
  LARGE_TABLES,
  SMALL_TABLES,
} from '../../../storage/archive/archivedTables.ts';
import { archiveNames, stemOf } from '../../../storage/archive/archivePaths.ts';
import { type ArchiveScope, recordsInScope } from '../../../storage/archive/archiveScope.ts';
import { codeOf, nameOf } from '../../../storage/archive/mergeIdentity.ts';
import type { ProjectStore } from '../../../storage/projectStore.ts';
import { base64Of } from '../../../storage/rawExport.ts';
import { CURRENT_VERSION } from '../../../storage/schemaVersions.ts';
import type { RecordOf } from '../../../storage/tables.ts';
import { zipWriter } from '../../../zip/zipWriter.ts';
import { sha256Of } from '../sha256Of.ts';
import { askForCollection } from './askForCollection.ts';
import type { LargeRecordStore } from './largeRecordStore.ts';

export interface ExportRequest extends ArchiveScope {
  /** False takes the places out of the photos in the archive; the photos here keep them. @default true */
  readonly withLocations?: boolean;
}

export interface ExportProgress {
  readonly photos: number;
  readonly photosDone: number;
}

export interface ExportOptions {
  readonly softwareVersion: string;
  readonly now: () => Date;
  readonly onProgress?: (progress: ExportProgress) => void;
  /** Where photos are read. @default the store itself */
  readonly largeRecords?: LargeRecordStore;
  /** Done after each photo, so that its memory is given back. @default askForCollection */
  readonly giveBackMemory?: () => Promise<void>;
  /** Aborting ends the export with the signal's reason; what was written by then is no archive. */
  readonly signal?: AbortSignal;
}

export interface ExportReport {
  readonly photos: number;
  readonly bytes: number;
  /** Photos whose bytes the store no longer has: their records are in the archive, the photos are not. */
  readonly withoutBytes: readonly string[];
  /** Photos whose bytes are no longer those that were taken in: a worn-out disk. They are in the archive as they are. */
  readonly changed: readonly string[];
  /** Photos from which a place was taken out. */
  readonly placesTakenOut: number;
}

/**
 * Writes an archive as a stream: photos one at a time, byte for byte and without packing them again.
 *
 * @throws whatever `out` or the store throws, or the reason of an aborted signal
 */
export async function exportArchive(
  store: ProjectStore,
  { withLocations = true, ...scope }: ExportRequest,
  out: WritableStream<Uint8Array>,
  {
    softwareVersion,
    now,
    onProgress = () => {},
    largeRecords = store.archive,
    giveBackMemory = askForCollection,
    signal,
  }: ExportOptions,
): Promise<ExportReport> {
  const createdAt = now();
  const all = await store.archive.contents();
  const contents = recordsInScope(all, scope);
  const names = archiveNames(contents.photos);
  const zip = zipWriter(out, createdAt);
  const files: ArchiveFile[] = [];
  const large: Record<(typeof LARGE_TABLES)[number], unknown[]> = {
    photoBytes: [],
    thumbnails: [],
    automaticMasks: [],
  };
  const report = { withoutBytes: [] as string[], changed: [] as string[], placesTakenOut: 0 };

  const add = async (
    path: string,
    bytes: Uint8Array<ArrayBuffer>,
    compress: boolean,
    known: Partial<Pick<ArchiveFile, 'sha256' | 'originalSha256'>> = {},
  ) => {
    const sha256 = known.sha256 ?? (await sha256Of(bytes));
    await zip.add(path, bytes, compress);
    files.push({ path, bytes: bytes.length, ...known, sha256 });
  };

  const figures = new Set(contents.figures.map(({ id }) => id));
  for (const [index, photo] of contents.photos.entries()) {
    signal?.throwIfAborted();
    const { photoBytes, thumbnails, automaticMasks } = await largeRecords.large(photo.id);
    const name = names.get(photo.id)!;
    if (photoBytes) {
      const stored = new Uint8Array(photoBytes.bytes);
      const sha256 = await sha256Of(stored);
      if (sha256 !== photo.sha256) report.changed.push(photo.name);
      const plain = withLocations ? null : withoutPosition(stored);
      if (plain?.hadPosition) report.placesTakenOut += 1;
      const path = pathOf('photoBytes', name);
      if (plain?.hadPosition) await add(path, plain.bytes, false, { originalSha256: photo.sha256 });
      else await add(path, stored, false, { sha256 });
      large.photoBytes.push({ photoId: photo.id, bytes: { file: path } });
    } else report.withoutBytes.push(photo.name);
    if (thumbnails) {
      const path = pathOf('thumbnails', name);
      await add(path, new Uint8Array(thumbnails.jpeg), false);
      large.thumbnails.push({ ...thumbnails, jpeg: { file: path } });
    }
    // a mask made since the records were read belongs to a figure that is not among them
    if (automaticMasks && figures.has(automaticMasks.figureId)) {
      const path = pathOf('automaticMasks', name);
      await add(path, new Uint8Array(automaticMasks.bytes), false);
      large.automaticMasks.push({ ...automaticMasks, bytes: { file: path } });
    }
    await giveBackMemory();
    onProgress({ photos: contents.photos.length, photosDone: index + 1 });
  }

  const layers: unknown[] = [];
  for (const correction of contents.corrections) {
    const path = pathOf('corrections', names.get(correction.photoId)!);
    await add(path, new Uint8Array(correction.layer), true);
    layers.push({ ...correction, layer: { file: path } });
  }
  const tables: Readonly<Record<string, readonly unknown[]>> = {
    ...contents,
    ...large,
    corrections: layers,
    correctionPatches: contents.correctionPatches.map(withBase64),
  };
  for (const table of [...SMALL_TABLES, ...LARGE_TABLES].sort()) {
    signal?.throwIfAborted();
    await add(tablePath(table), new TextEncoder().encode(writeRecordTable(table, tables[table]!)), true);
  }
  const manifest = manifestOf(all, contents, scope, { softwareVersion, createdAt, files });
  await zip.add(MANIFEST_PATH, new TextEncoder().encode(writeArchiveManifest(manifest)), true);
  signal?.throwIfAborted();
  await zip.close();
  const written = contents.photos.filter(({ name }) => !report.withoutBytes.includes(name));
  await store.archive.markExported(written.map(({ id }) => id));
  return {
    ...report,
    photos: contents.photos.length,
    bytes: files.reduce((sum, { bytes }) => sum + bytes, 0),
  };
}

function manifestOf(
  all: ArchiveContents,
  contents: ArchiveContents,
  scope: ArchiveScope,
  rest: { softwareVersion: string; createdAt: Date; files: readonly ArchiveFile[] },
): ArchiveManifest {
  const [trial] = contents.trials;
  const whole = scope.ratingDate === undefined ? contents : recordsInScope(all, { trialId: scope.trialId });
  return {
    softwareVersion: rest.softwareVersion,
    databaseVersion: CURRENT_VERSION,
    createdAt: rest.createdAt.toISOString(),
    trial: trial ? { id: trial.id, code: codeOf(trial), name: nameOf(trial) } : null,
    ...(scope.ratingDate !== undefined && { part: { ratingDate: scope.ratingDate } }),
    ratingDates: [...new Set(whole.photos.map(({ ratingDate }) => ratingDate))].sort(byDate),
    files: rest.files,
  };
}

/** Photos without a date last. */
const byDate = (a: string | null, b: string | null): number =>
  a === b ? 0 : a === null ? 1 : b === null ? -1 : a < b ? -1 : 1;

/** Path of a file that belongs to a photo. @param name of the photo's own file in the archive */
function pathOf(table: ArchivedTable, name: string): string {
  const { folder, ending } = BYTES_FIELDS[table]!.file!;
  return `${folder}/${ending === '' ? name : `${stemOf(name)}${ending}`}`;
}

function withBase64(record: RecordOf<'correctionPatches'>): object {
  const patch: StoredBytes = { base64: base64Of(new Uint8Array(record.patch)) };
  return { ...record, patch };
}
