import { entriesProblem, MANIFEST_PATH } from '../core/exchange/archiveEntries.ts';
import { type ArchiveManifest, readArchiveManifest } from '../core/exchange/archiveManifest.ts';
import type { ArchiveProblem } from '../core/exchange/archiveProblem.ts';
import { readRecordTable, tablePath } from '../core/exchange/archiveRecords.ts';
import { type ByteSource, openZip, type ZipReader } from './zipReader.ts';

export type Sha256 = (bytes: Uint8Array<ArrayBuffer>) => Promise<string> | string;

export type FileReading =
  | { readonly ok: true; readonly bytes: Uint8Array<ArrayBuffer> }
  | { readonly ok: false; readonly problem: ArchiveProblem };

/** An archive whose list of contents was read. */
export interface OpenArchive {
  readonly manifest: ArchiveManifest;
  /** Files that the list names and the archive lacks, and the other way round. */
  readonly remarks: readonly ArchiveProblem[];
  /** One file, checked against the list. */
  file(path: string): Promise<FileReading>;
  /** Records of a table, unchecked; none where the archive has no such table. */
  table(
    name: string,
  ): Promise<
    | { readonly ok: true; readonly records: readonly unknown[] }
    | { readonly ok: false; readonly problem: ArchiveProblem }
  >;
}

export type ArchiveOpening =
  | { readonly ok: true; readonly archive: OpenArchive }
  | { readonly ok: false; readonly problem: ArchiveProblem };

/** Opens an archive: its directory is judged, its list of contents read, nothing else. */
export async function openArchive(bytes: ByteSource, sha256: Sha256): Promise<ArchiveOpening> {
  const refused = (problem: ArchiveProblem): ArchiveOpening => ({ ok: false, problem });
  const opening = await openZip(bytes);
  if (!opening.ok) return opening;
  const source = opening.zip;
  const problem = entriesProblem(source.entries);
  if (problem) return refused(problem);
  const there = new Map(source.entries.map((entry) => [entry.path, entry]));
  if (!there.has(MANIFEST_PATH)) return refused({ code: 'foreign' });
  const head = await readWhole(source, MANIFEST_PATH);
  if (!head.ok) return refused(head.problem);
  const reading = readArchiveManifest(new TextDecoder().decode(head.bytes));
  if (!reading.ok) return refused(reading.problem);
  const { manifest } = reading;
  const listed = new Map(manifest.files.map((file) => [file.path, file]));

  const file = async (path: string): Promise<FileReading> => {
    const expected = listed.get(path);
    if (!expected) return { ok: false, problem: { code: 'file-unlisted', path } };
    const entry = there.get(path);
    if (!entry) return { ok: false, problem: { code: 'file-missing', path } };
    const changed: FileReading = { ok: false, problem: { code: 'file-changed', path } };
    if (entry.bytes !== expected.bytes) return changed;
    const read = await readWhole(source, path);
    if (!read.ok) return read;
    return (await sha256(read.bytes)) === expected.sha256 ? read : changed;
  };

  return {
    ok: true,
    archive: {
      manifest,
      remarks: [
        ...manifest.files
          .filter(({ path }) => !there.has(path))
          .map(({ path }) => ({ code: 'file-missing', path }) as const),
        ...source.entries
          .filter(({ path }) => path !== MANIFEST_PATH && !listed.has(path))
          .map(({ path }) => ({ code: 'file-unlisted', path }) as const),
      ],
      file,
      async table(name) {
        const path = tablePath(name);
        if (!listed.has(path)) return { ok: true, records: [] };
        const read = await file(path);
        if (!read.ok) return read;
        const table = readRecordTable(name, new TextDecoder().decode(read.bytes));
        return table.ok ? table : { ok: false, problem: { code: 'bad-table', path, detail: table.detail } };
      },
    },
  };
}

async function readWhole(source: ZipReader, path: string): Promise<FileReading> {
  try {
    return { ok: true, bytes: await source.read(path) };
  } catch (error) {
    const detail = error instanceof Error ? error.message : String(error);
    return { ok: false, problem: { code: 'zip-damaged', path, detail } };
  }
}
