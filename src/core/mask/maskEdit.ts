import type { PixelBox } from '../geometry/pixelBox.ts';
import type { PixelRuns } from '../geometry/pixelRuns.ts';
import type { CorrectedMask } from './correctedMask.ts';
import {
  AUTOMATIC,
  dropIfAutomatic,
  effectiveLabel,
  TILE_PIXELS,
  TILE_SIDE,
  tilesAcross,
} from './correctionLayer.ts';
import { type CorrectionPatch, patchFromTiles } from './correctionPatch.ts';

/** What an edit does to the pixels it reaches. */
export interface Paint {
  /** Class label, or AUTOMATIC to take corrections back. */
  readonly label: number;
  /** Touch only pixels that count as this class now; null for any. @default null */
  readonly onlyOver?: number | null;
}

/** One gesture under way: from pointer down to pointer up, or one fill. It becomes one patch. */
export interface MaskEdit {
  readonly mask: CorrectedMask;
  /** Each touched tile as it was before; null where there was none. */
  readonly before: Map<number, Uint8Array<ArrayBuffer> | null>;
}

/**
 * Opens an edit. Pixels that are not measured are never touched by it.
 *
 * @throws RangeError if one is open already
 */
export function beginEdit(mask: CorrectedMask): MaskEdit {
  if (mask.editing) throw new RangeError('an edit of this mask is open: finish or abandon it first');
  mask.editing = true;
  return { mask, before: new Map() };
}

/**
 * Paints runs of pixels.
 *
 * @returns the smallest box round the pixels whose correction changed, null when none did
 * @throws RangeError if the label is no class
 */
export function paintRuns(edit: MaskEdit, { runs }: PixelRuns, paint: Paint): PixelBox | null {
  const painter = painterOf(edit, paint);
  for (let i = 0; i < runs.length; i += 3) painter.paintRun(runs[i]!, runs[i + 1]!, runs[i + 2]!);
  return painter.changedBox();
}

/** Writes runs of one paint into an edit and remembers which box it changed. */
export interface Painter {
  /** Within the photo: row, first column, column after the last. */
  paintRun(y: number, from: number, to: number): void;
  /** Box of the pixels changed by this painter so far; null when none was. */
  changedBox(): PixelBox | null;
}

/** @throws RangeError if the label is no class */
export function painterOf({ mask, before }: MaskEdit, { label, onlyOver = null }: Paint): Painter {
  const { automatic, corrections, effective, classCount } = mask;
  for (const wanted of [label, onlyOver ?? 0]) {
    if (!Number.isInteger(wanted) || wanted < 0 || wanted > classCount) {
      throw new RangeError(`a label must be a whole number from 0 to ${classCount}, got ${wanted}`);
    }
  }
  const { widthPx, labels: automaticLabels } = automatic;
  const { labels } = effective;
  const { tiles } = corrections;
  const across = tilesAcross(corrections);
  let [left, top, right, bottom] = [widthPx, automatic.heightPx, 0, 0];

  const paintRun = (y: number, from: number, to: number): void => {
    const tileRow = Math.floor(y / TILE_SIDE);
    const row = y * widthPx;
    const rowInTile = (y - tileRow * TILE_SIDE) * TILE_SIDE;
    let first = -1;
    let last = -1;
    for (let x = from; x < to; ) {
      const tileColumn = Math.floor(x / TILE_SIDE);
      const end = Math.min(to, (tileColumn + 1) * TILE_SIDE);
      const index = tileRow * across + tileColumn;
      const offset = rowInTile - tileColumn * TILE_SIDE;
      let tile = tiles.get(index);
      let remembered = before.has(index);
      for (; x < end; x += 1) {
        const computed = automaticLabels[row + x]!;
        if (computed === 0 || (onlyOver !== null && labels[row + x] !== onlyOver)) continue;
        if ((tile === undefined ? AUTOMATIC : tile[offset + x]) === label) continue;
        if (!remembered) {
          before.set(index, tile?.slice() ?? null);
          remembered = true;
        }
        if (tile === undefined) {
          tile = new Uint8Array(TILE_PIXELS);
          tiles.set(index, tile);
        }
        tile[offset + x] = label;
        labels[row + x] = label === AUTOMATIC ? computed : label;
        if (first < 0) first = x;
        last = x;
      }
    }
    if (first < 0) return;
    if (first < left) left = first;
    if (last >= right) right = last + 1;
    if (y < top) top = y;
    if (y >= bottom) bottom = y + 1;
  };

  return { paintRun, changedBox: () => (left < right ? { left, top, right, bottom } : null) };
}

/**
 * Closes the edit.
 *
 * @returns what it changed, or null when every pixel is as it was before
 */
export function finishEdit({ mask, before }: MaskEdit): CorrectionPatch | null {
  const { tiles } = mask.corrections;
  const patch = patchFromTiles(mask.corrections, before, tiles);
  for (const index of before.keys()) dropIfAutomatic(tiles, index);
  mask.editing = false;
  return patch;
}

/** Closes the edit and puts every pixel back as it was before. */
export function abandonEdit({ mask, before }: MaskEdit): void {
  const { automatic, corrections, effective } = mask;
  const { widthPx, heightPx } = automatic;
  const across = tilesAcross(corrections);
  for (const [index, tile] of before) {
    if (tile === null) corrections.tiles.delete(index);
    else corrections.tiles.set(index, tile);
    const left = (index % across) * TILE_SIDE;
    const top = Math.floor(index / across) * TILE_SIDE;
    for (let y = top; y < Math.min(top + TILE_SIDE, heightPx); y += 1) {
      for (let x = left; x < Math.min(left + TILE_SIDE, widthPx); x += 1) {
        const computed = automatic.labels[y * widthPx + x]!;
        const correction = tile === null ? AUTOMATIC : tile[(y - top) * TILE_SIDE + (x - left)]!;
        effective.labels[y * widthPx + x] = effectiveLabel(computed, correction);
      }
    }
  }
  mask.editing = false;
}
