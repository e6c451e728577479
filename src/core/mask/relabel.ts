import { AUTOMATIC, type CorrectionLayer, FIRST_WAITING } from './correctionLayer.ts';
import { type CorrectionPatch, mapEntries } from './correctionPatch.ts';

/** What each entry of a layer becomes; index = entry, AUTOMATIC stays. No two entries become the same. */
export type EntryTable = Uint8Array<ArrayBuffer>;

/**
 * The table from one class list to another: every entry keeps its class, wherever that stands. Classes that the other
 * list does not have become entries from FIRST_WAITING on, which have no effect and come back with `invertedTable`.
 *
 * @returns null where the entries mean the same in both, so that nothing has to be rewritten
 * @throws RangeError with more classes than fit below FIRST_WAITING
 */
export function entryTable(from: readonly string[], to: readonly string[]): EntryTable | null {
  if (Math.max(from.length, to.length) >= FIRST_WAITING) {
    throw new RangeError(`there may be ${FIRST_WAITING - 1} classes, got ${from.length} and ${to.length}`);
  }
  const table = new Uint8Array(256);
  let waiting = FIRST_WAITING;
  let same = true;
  from.forEach((id, index) => {
    const place = to.indexOf(id);
    table[index + 1] = place >= 0 ? place + 1 : waiting++;
    if (place !== index) same = false;
  });
  return same ? null : table;
}

/** The way back. */
export function invertedTable(table: EntryTable): EntryTable {
  const back = new Uint8Array(256);
  for (let entry = 1; entry < 256; entry += 1) if (table[entry] !== 0) back[table[entry]!] = entry;
  return back;
}

/**
 * A class list that has all classes of both: the first in its order, then what only the second has. Stored entries are
 * places in such a list, so it only ever grows at its end.
 */
export const classListWith = (known: readonly string[], more: readonly string[]): readonly string[] => [
  ...known,
  ...more.filter((id) => !known.includes(id)),
];

/** A copy of a layer with other entries. @throws RangeError for an entry that the table does not have */
export function relabelLayer(layer: CorrectionLayer, table: EntryTable): CorrectionLayer {
  const tiles = new Map(
    [...layer.tiles].map(([index, tile]) => [index, tile.map((entry) => lookUp(table, entry))]),
  );
  return { ...layer, tiles };
}

/** A patch with other entries. @throws RangeError for an entry that the table does not have */
export const relabelPatch = (patch: CorrectionPatch, table: EntryTable): CorrectionPatch =>
  mapEntries(patch, (before, after) => [lookUp(table, before), lookUp(table, after)]);

function lookUp(table: EntryTable, entry: number): number {
  if (entry === AUTOMATIC) return AUTOMATIC;
  const next = table[entry]!;
  if (next === AUTOMATIC) throw new RangeError(`entry ${entry} is no class of the list it was stored with`);
  return next;
}
