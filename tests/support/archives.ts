import { blobSource } from '../../src/app/session/archive/blobSource.ts';
import {
  type ExportReport,
  type ExportRequest,
  exportArchive,
} from '../../src/app/session/archive/exportArchive.ts';
import {
  type Inspection,
  importArchive,
  inspectArchive,
} from '../../src/app/session/archive/importArchive.ts';
import { sha256Of } from '../../src/app/session/sha256Of.ts';
import type { Side } from '../../src/storage/archive/mergeTypes.ts';
import { MemoryDatabase } from '../../src/storage/memoryDatabase.ts';
import { createProjectStore, type ProjectStore } from '../../src/storage/projectStore.ts';
import { type OpenArchive, openArchive } from '../../src/zip/openArchive.ts';
import { countingIds, steppingClock } from '../storage/support.ts';

/** The browser's collector has no part in tests, and asking it takes most of their time. */
export const giveBackMemory = async () => {};

export const archiveNow = () => new Date('2027-06-01T12:00:00.000Z');

/** A store in memory whose ids begin with a word of its own, as those of another device do. */
export const newStore = (device: string): ProjectStore =>
  createProjectStore({
    database: new MemoryDatabase(),
    channel: null,
    now: steppingClock(),
    newId: countingIds(device),
  });

/** The archive of a store as one file. */
export async function archiveOf(
  store: ProjectStore,
  request: ExportRequest = { trialId: null },
): Promise<{ file: Uint8Array<ArrayBuffer>; report: ExportReport }> {
  const pieces: Uint8Array<ArrayBuffer>[] = [];
  const out = new WritableStream<Uint8Array>({ write: (piece) => void pieces.push(new Uint8Array(piece)) });
  const report = await exportArchive(store, request, out, {
    softwareVersion: '0.1.0',
    now: archiveNow,
    giveBackMemory,
  });
  return { file: new Uint8Array(await new Blob(pieces).arrayBuffer()), report };
}

export const openBytes = (file: Uint8Array<ArrayBuffer>) =>
  openArchive(blobSource(new Blob([file])), sha256Of);

/** @throws Error if it cannot be opened */
export async function opened(file: Uint8Array<ArrayBuffer>): Promise<OpenArchive> {
  const opening = await openBytes(file);
  if (!opening.ok) throw new Error(JSON.stringify(opening.problem));
  return opening.archive;
}

/** @throws Error if it cannot be taken in */
export async function inspected(store: ProjectStore, file: Uint8Array<ArrayBuffer>): Promise<Inspection> {
  const result = await inspectArchive(store, await opened(file));
  if (!result.ok) throw new Error(JSON.stringify(result.problem));
  return result.inspection;
}

/** Takes an archive in. */
export async function takeIn(
  store: ProjectStore,
  file: Uint8Array<ArrayBuffer>,
  decisions: ReadonlyMap<string, Side> = new Map(),
) {
  return importArchive(store, await inspected(store, file), decisions, {
    by: 'K',
    reason: 'test archive',
    giveBackMemory,
  });
}

/** The files of an archive by path, without the manifest, which names the moment. */
export async function filesOf(file: Uint8Array<ArrayBuffer>): Promise<ReadonlyMap<string, string>> {
  return new Map((await opened(file)).manifest.files.map(({ path, sha256 }) => [path, sha256]));
}
