import {
  type CorrectionBytesProblem,
  decodeCorrections,
  decodePatch,
} from '../../core/mask/correctionBytes.ts';
import { type CorrectionLayer, emptyCorrections } from '../../core/mask/correctionLayer.ts';
import type { CorrectionPatch } from '../../core/mask/correctionPatch.ts';
import {
  classListWith,
  type EntryTable,
  entryTable,
  invertedTable,
  relabelLayer,
  relabelPatch,
} from '../../core/mask/relabel.ts';
import type { CorrectionPatchRecord, CorrectionRecord } from '../../storage/records/correctionRecords.ts';

interface PhotoSize {
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Between the entries in the store and the labels of a class list. */
export interface StoredClasses {
  /** What entries in the store mean, from 1. */
  readonly classIds: readonly string[];
  /** From the store to the class list; null where they mean the same. */
  readonly fromStore: EntryTable | null;
  readonly toStore: EntryTable | null;
}

/** @param stored the classes the entries were stored with; null where nothing is stored */
export function storedClasses(stored: readonly string[] | null, classIds: readonly string[]): StoredClasses {
  const all = classListWith(stored ?? [], classIds);
  const fromStore = entryTable(all, classIds);
  return { classIds: all, fromStore, toStore: fromStore && invertedTable(fromStore) };
}

export type ReadCorrections =
  | { readonly ok: true; readonly layer: CorrectionLayer; readonly classes: StoredClasses }
  | { readonly ok: false; readonly problem: CorrectionBytesProblem };

/** The corrections of a photo in the labels of a class list; an empty layer where nothing is stored. */
export function readCorrections(
  record: CorrectionRecord | null,
  size: PhotoSize,
  classIds: readonly string[],
): ReadCorrections {
  const classes = storedClasses(record?.classIds ?? null, classIds);
  if (!record) return { ok: true, layer: emptyCorrections(size.widthPx, size.heightPx), classes };
  const decoded = decodeCorrections(new Uint8Array(record.layer), size);
  if (!decoded.ok) return decoded;
  const { fromStore } = classes;
  return { ok: true, layer: fromStore ? relabelLayer(decoded.value, fromStore) : decoded.value, classes };
}

/** A stored gesture in the labels of a class list; null where its bytes are damaged. */
export function readPatch(
  { patch: bytes }: CorrectionPatchRecord,
  size: PhotoSize,
  { fromStore }: StoredClasses,
): CorrectionPatch | null {
  const decoded = decodePatch(new Uint8Array(bytes), size);
  if (!decoded.ok) return null;
  return fromStore ? relabelPatch(decoded.value, fromStore) : decoded.value;
}
