import type { PixelBox } from '../geometry/pixelBox.ts';
import { ByteReader, ByteWriter } from './byteStream.ts';
import { AUTOMATIC, TILE_PIXELS, TILE_SIDE, tilesAcross, tilesDown } from './correctionLayer.ts';

/**
 * What one edit changed in a correction layer, both ways: it can be applied, inverted and stored.
 *
 * Holds each changed pixel's entry before and after as runs within tiles, so a brush stroke takes a few kilobytes.
 */
export interface CorrectionPatch {
  readonly widthPx: number;
  readonly heightPx: number;
  /** Smallest box round the changed pixels: what must be drawn again. */
  readonly dirtyBox: PixelBox;
  /** One or more. */
  readonly changedPixels: number;
  /**
   * Tiles by rising key, each: key less the one before less 1 (for the first: the key); number of different changes n;
   * n times the entry before, the entry after; then runs that cover the tile: (length - 1) * (n + 1) + change, where
   * change 0 is "unchanged". Entries are bytes, all other numbers LEB128.
   */
  readonly tileRuns: Uint8Array<ArrayBuffer>;
}

type Size = Pick<CorrectionPatch, 'widthPx' | 'heightPx'>;
type Tiles = ReadonlyMap<number, Uint8Array | null>;

/** The change from one state of some tiles to another; null when there is none. Keys of `before` say which tiles. */
export function patchFromTiles(size: Size, before: Tiles, after: Tiles): CorrectionPatch | null {
  const out = new ByteWriter();
  let previous = -1;
  for (const index of [...before.keys()].sort((a, b) => a - b)) {
    if (writeTile(out, index - previous - 1, before.get(index) ?? UNTOUCHED, after.get(index) ?? UNTOUCHED)) {
      previous = index;
    }
  }
  return previous < 0 ? null : patchOf(size, out.finish());
}

const UNTOUCHED = new Uint8Array(TILE_PIXELS);

/** @returns whether anything differs; if not, nothing is written */
function writeTile(out: ByteWriter, keyStep: number, before: Uint8Array, after: Uint8Array): boolean {
  // one entry a run: how long, and which change: 0 for none, else its place in the list, from 1
  const lengths: number[] = [];
  const kinds: number[] = [];
  const changes: number[] = [];
  const pixels = before.length;
  for (let start = 0; start < pixels; ) {
    const from = before[start]!;
    const to = after[start]!;
    let end = start + 1;
    let kind = 0;
    if (from === to) {
      while (end < pixels && before[end] === after[end]) end += 1;
    } else {
      while (end < pixels && before[end] === from && after[end] === to) end += 1;
      const change = from * 256 + to;
      kind = changes.indexOf(change) + 1;
      if (kind === 0) kind = changes.push(change);
    }
    lengths.push(end - start);
    kinds.push(kind);
    start = end;
  }
  if (changes.length === 0) return false;
  out.number(keyStep);
  out.number(changes.length);
  for (const change of changes) {
    out.byte(change >> 8);
    out.byte(change & 255);
  }
  lengths.forEach((length, i) => {
    out.number((length - 1) * (changes.length + 1) + kinds[i]!);
  });
  return true;
}

/**
 * A patch from its runs, with the box and count they give.
 *
 * @throws RangeError if the runs are not well formed or reach out of the photo
 */
export function patchOf(size: Size, tileRuns: Uint8Array<ArrayBuffer>): CorrectionPatch {
  const { widthPx, heightPx } = size;
  let [left, top, right, bottom] = [widthPx, heightPx, 0, 0];
  let changedPixels = 0;
  forEachChangedRow({ widthPx, heightPx, tileRuns }, (y, from, to) => {
    if (to > widthPx || y >= heightPx) throw new RangeError('a run reaches out of the photo');
    changedPixels += to - from;
    if (from < left) left = from;
    if (to > right) right = to;
    if (y < top) top = y;
    if (y >= bottom) bottom = y + 1;
  });
  return { widthPx, heightPx, dirtyBox: { left, top, right, bottom }, changedPixels, tileRuns };
}

/** Tile key, first pixel in the tile, number of pixels, entry before, entry after. */
export type VisitTileRun = (
  index: number,
  offset: number,
  length: number,
  before: number,
  after: number,
) => void;

type Runs = Size & Pick<CorrectionPatch, 'tileRuns'>;

/**
 * Visits the changed runs of a patch tile by tile.
 *
 * @throws RangeError if the runs are not well formed
 */
export function forEachTileRun(patch: Runs, visit: VisitTileRun): void {
  const tileCount = tilesAcross(patch) * tilesDown(patch);
  const reader = new ByteReader(patch.tileRuns);
  let index = -1;
  while (!reader.atEnd) {
    index += reader.number() + 1;
    if (index >= tileCount) throw new RangeError(`tile ${index}: there are ${tileCount}`);
    const count = reader.number();
    if (count < 1 || count > TILE_PIXELS) throw new RangeError(`tile ${index} with ${count} changes`);
    const before = new Uint8Array(count);
    const after = new Uint8Array(count);
    for (let i = 0; i < count; i += 1) {
      before[i] = reader.byte();
      after[i] = reader.byte();
      if (before[i] === after[i]) throw new RangeError(`tile ${index}: a change from ${before[i]} to itself`);
    }
    for (let offset = 0; offset < TILE_PIXELS; ) {
      const code = reader.number();
      const change = code % (count + 1);
      const length = Math.floor(code / (count + 1)) + 1;
      if (offset + length > TILE_PIXELS) throw new RangeError(`tile ${index}: a run is too long`);
      if (change > 0) visit(index, offset, length, before[change - 1]!, after[change - 1]!);
      offset += length;
    }
  }
}

/** Visits the changed runs of a patch as rows of the photo: row, first column, column after the last, before, after. */
export function forEachChangedRow(
  patch: Runs,
  visit: (y: number, from: number, to: number, before: number, after: number) => void,
): void {
  const across = tilesAcross(patch);
  forEachTileRun(patch, (index, offset, length, before, after) => {
    const left = (index % across) * TILE_SIDE;
    const top = Math.floor(index / across) * TILE_SIDE;
    const end = offset + length;
    for (let at = offset; at < end; ) {
      const row = Math.floor(at / TILE_SIDE);
      const rowEnd = Math.min(end, (row + 1) * TILE_SIDE);
      const x = left + at - row * TILE_SIDE;
      visit(top + row, x, x + rowEnd - at, before, after);
      at = rowEnd;
    }
  });
}

/** The patch that takes this one back. Inverting twice gives the same bytes. */
export const invertPatch = (patch: CorrectionPatch): CorrectionPatch =>
  mapEntries(patch, (before, after) => [after, before]);

/** The same pixels with other entries before and after. */
export function mapEntries(
  patch: CorrectionPatch,
  map: (before: number, after: number) => readonly [before: number, after: number],
): CorrectionPatch {
  const tileRuns = patch.tileRuns.slice();
  const reader = new ByteReader(tileRuns);
  while (!reader.atEnd) {
    reader.number();
    const count = reader.number();
    for (let i = 0; i < count; i += 1) {
      const at = reader.position;
      const [before, after] = map(reader.byte(), reader.byte());
      tileRuns[at] = before;
      tileRuns[at + 1] = after;
    }
    for (let offset = 0; offset < TILE_PIXELS; ) offset += Math.floor(reader.number() / (count + 1)) + 1;
  }
  return { ...patch, tileRuns };
}

/** The patch that makes a layer out of nothing; null for a layer without corrections. */
export function patchFromNothing(layer: Size & { readonly tiles: Tiles }): CorrectionPatch | null {
  const nothing = new Map([...layer.tiles.keys()].map((index) => [index, null]));
  return patchFromTiles(layer, nothing, layer.tiles);
}

/** Whether every change of a patch starts from the automatic label. */
export function startsFromNothing(patch: Runs): boolean {
  let all = true;
  forEachTileRun(patch, (_index, _offset, _length, before) => {
    if (before !== AUTOMATIC) all = false;
  });
  return all;
}
