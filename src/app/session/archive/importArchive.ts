import type { ArchiveProblem } from '../../../core/exchange/archiveProblem.ts';
import { type ArchiveContents, LARGE_TABLES, SMALL_TABLES } from '../../../storage/archive/archivedTables.ts';
import { storedRecord } from '../../../storage/archive/archiveRecordCheck.ts';
import type { MergePlan, MergePlanning, MergeSide, Side } from '../../../storage/archive/mergeTypes.ts';
import { planMerge } from '../../../storage/archive/planMerge.ts';
import type { LargeRecords } from '../../../storage/archiveStore.ts';
import type { ProjectStore } from '../../../storage/projectStore.ts';
import type { StorageProblem, Written } from '../../../storage/storageProblem.ts';
import type { RecordOf } from '../../../storage/tables.ts';
import type { OpenArchive } from '../../../zip/openArchive.ts';
import { sha256Of } from '../sha256Of.ts';
import { askForCollection } from './askForCollection.ts';
import type { LargeRecordStore } from './largeRecordStore.ts';
import { type ArchiveSide, fileOf, readArchiveSide } from './readArchiveSide.ts';

/** An archive that was looked into, with what it would bring. Nothing was changed. */
export interface Inspection {
  readonly archive: OpenArchive;
  readonly side: ArchiveSide;
  readonly plan: MergePlan;
  /** Photos whose file is not in the archive, by name. */
  readonly missingPhotos: readonly string[];
}

export type InspectionResult =
  | { readonly ok: true; readonly inspection: Inspection }
  | { readonly ok: false; readonly problem: ArchiveProblem | Extract<MergePlanning, { ok: false }> };

/** Looks into an open archive: what is new, the same, in conflict. */
export async function inspectArchive(store: ProjectStore, archive: OpenArchive): Promise<InspectionResult> {
  const reading = await readArchiveSide(archive);
  if (!reading.ok) return reading;
  const present = await presentSide(store);
  const known = new Set(present.contents.photos.map(({ sha256 }) => sha256));
  const files = new Set(archive.manifest.files.map(({ path }) => path));
  const gone = new Set(
    archive.remarks.flatMap((remark) => (remark.code === 'file-missing' ? [remark.path] : [])),
  );
  const isThere = (photoId: string) => {
    const path = fileOf('photoBytes', reading.side.large.photoBytes.get(photoId));
    return path !== null && files.has(path) && !gone.has(path);
  };
  const missing = reading.side.contents.photos.filter(({ id, sha256 }) => !known.has(sha256) && !isThere(id));
  const side = withoutPhotos(reading.side, new Set(missing.map(({ id }) => id)));
  const planning = planMerge(present, side);
  if (!planning.ok) return { ok: false, problem: planning };
  return {
    ok: true,
    inspection: { archive, side, plan: planning.plan, missingPhotos: missing.map(({ name }) => name) },
  };
}

async function presentSide(store: ProjectStore): Promise<MergeSide> {
  const contents = await store.archive.contents();
  const layerSha256 = new Map<string, string>();
  for (const { photoId, layer } of contents.corrections) {
    layerSha256.set(photoId, await sha256Of(new Uint8Array(layer)));
  }
  return { contents, layerSha256 };
}

function withoutPhotos<T extends MergeSide>(side: T, left: ReadonlySet<string>): T {
  if (left.size === 0) return side;
  const contents = SMALL_TABLES.map((table) => {
    const records: readonly Record<string, unknown>[] = side.contents[table];
    return [
      table,
      records.filter((record) => !left.has((table === 'photos' ? record.id : record.photoId) as string)),
    ];
  });
  return { ...side, contents: Object.fromEntries(contents) as ArchiveContents };
}

export interface ImportOptions {
  readonly by: string | null;
  /** Noted in the audit with every conflict that is decided for the archive. */
  readonly reason: string;
  readonly onProgress?: (progress: { readonly photos: number; readonly photosDone: number }) => void;
  /** Where photos are kept. @default the store itself */
  readonly largeRecords?: LargeRecordStore;
  /** Done after each photo, so that its memory is given back. @default askForCollection */
  readonly giveBackMemory?: () => Promise<void>;
  /** Aborting ends the import with the signal's reason; nothing has changed then. */
  readonly signal?: AbortSignal;
}

export type ImportResult =
  | {
      readonly ok: true;
      readonly newPhotos: number;
      /** Photos that are not taken in since their file is damaged, by name and why. */
      readonly damaged: readonly { readonly name: string; readonly problem: ArchiveProblem }[];
    }
  | { readonly ok: false; readonly problem: StorageProblem };

/**
 * Takes an archive in: first the bytes of new photos, one by one, which show nowhere yet; then all records in one
 * transaction. Whatever stops it before that leaves everything as it was.
 *
 * @param decisions by conflict; one that is not decided keeps what is here
 * @throws the reason of an aborted signal
 */
export async function importArchive(
  store: ProjectStore,
  inspection: Inspection,
  decisions: ReadonlyMap<string, Side>,
  {
    by,
    reason,
    onProgress = () => {},
    largeRecords = store.archive,
    giveBackMemory = askForCollection,
    signal,
  }: ImportOptions,
): Promise<ImportResult> {
  const { archive, side } = inspection;
  await store.archive.clearStaged();
  const begun = await store.archive.beginImport(inspection.plan.newPhotos.map(({ id }) => id));
  if (!begun.written) return { ok: false, problem: begun.problem };
  try {
    const damaged = new Map<string, ArchiveProblem>();
    for (const [index, photo] of inspection.plan.newPhotos.entries()) {
      signal?.throwIfAborted();
      const records = await readPhoto(archive, side, photo.archiveId);
      if ('problem' in records) damaged.set(photo.archiveId, records.problem);
      else {
        const staged = await largeRecords.stage(photo.id, records);
        if (!staged.written) return { ok: false, problem: staged.problem };
      }
      await giveBackMemory();
      onProgress({ photos: inspection.plan.newPhotos.length, photosDone: index + 1 });
    }
    // what is here may have changed since the archive was looked into: planned again on what is there now
    const planning = planMerge(await presentSide(store), withoutPhotos(side, new Set(damaged.keys())));
    if (!planning.ok) throw new Error(planning.code);
    const changes = planning.plan.changes(decisions);
    const masks: RecordOf<'automaticMasks'>[] = [];
    for (const { id, archiveId } of changes.masksFrom) {
      const mask = await readLarge(archive, side, 'automaticMasks', archiveId);
      if (mask && !('problem' in mask)) masks.push({ ...mask, photoId: id });
    }
    const signature = { by, reason, exportedAt: archive.manifest.createdAt };
    signal?.throwIfAborted();
    const finished = await finish(store, begun.value, changes, masks, signature);
    if (!finished.written) return { ok: false, problem: finished.problem };
    const named = new Map(side.contents.photos.map(({ id, name }) => [id, name]));
    return {
      ok: true,
      newPhotos: planning.plan.newPhotos.length,
      damaged: [...damaged].map(([id, problem]) => ({ name: named.get(id) ?? id, problem })),
    };
  } finally {
    // after a finished import there is nothing left to clear
    await store.archive.clearStaged();
  }
}

async function finish(
  store: ProjectStore,
  run: string,
  ...[changes, masks, signature]: [
    ReturnType<MergePlan['changes']>,
    readonly RecordOf<'automaticMasks'>[],
    { by: string | null; reason: string; exportedAt: string },
  ]
): Promise<Written<void>> {
  const { puts, deletes } = changes;
  if (puts.length + deletes.length === 0) return { written: true, value: undefined };
  return store.archive.finishImport(run, changes, masks, signature);
}

async function readPhoto(
  archive: OpenArchive,
  side: ArchiveSide,
  photoId: string,
): Promise<LargeRecords | { readonly problem: ArchiveProblem }> {
  const found: Record<string, unknown> = {};
  for (const table of LARGE_TABLES) {
    const record = await readLarge(archive, side, table, photoId);
    if (record && 'problem' in record) {
      // what can be made again may be damaged; the photo may not
      if (table === 'photoBytes') return { problem: record.problem };
      found[table] = null;
    } else found[table] = record;
  }
  return found as unknown as LargeRecords;
}

async function readLarge<Name extends (typeof LARGE_TABLES)[number]>(
  archive: OpenArchive,
  side: ArchiveSide,
  table: Name,
  photoId: string,
): Promise<RecordOf<Name> | { readonly problem: ArchiveProblem } | null> {
  const record = side.large[table].get(photoId);
  const path = fileOf(table, record);
  if (!record || path === null) return null;
  if (table === 'photoBytes' && !isOfPhoto(archive, side, path, photoId)) {
    return { problem: { code: 'file-changed', path } };
  }
  const file = await archive.file(path);
  return file.ok ? storedRecord(table, record, file.bytes) : { problem: file.problem };
}

/** Whether a file holds the bytes that the photo's record was made for. */
function isOfPhoto(archive: OpenArchive, side: ArchiveSide, path: string, photoId: string): boolean {
  const file = archive.manifest.files.find((one) => one.path === path);
  const photo = side.contents.photos.find(({ id }) => id === photoId);
  return file !== undefined && (file.originalSha256 ?? file.sha256) === photo?.sha256;
}
