/** Side of a tile in photo pixels; tile edges lie on its multiples, counted from the photo's top left corner. */
export const TILE_SIDE = 64;

/** Pixels in a tile. */
export const TILE_PIXELS = TILE_SIDE * TILE_SIDE;

/** The entry of a pixel nobody corrected: the automatic label holds. */
export const AUTOMATIC = 0;

/**
 * Entries from here on name classes that the present class list does not have (`relabel.ts`): they are kept and have no
 * effect.
 */
export const FIRST_WAITING = 128;

/**
 * What a person said about single pixels of the upright photo, apart from what was computed.
 *
 * Sparse: only tiles with a correction are there, so that an untouched photo costs nothing. Corrections keep their
 * place in the photo when frame, model or settings change; where nothing is measured they wait without effect.
 * Changed in place by edits and patches only (`maskEdit.ts`, `applyPatch.ts`), since a photo holds millions of pixels.
 */
export interface CorrectionLayer {
  readonly widthPx: number;
  readonly heightPx: number;
  /**
   * Key: tile row * tiles in a row + tile column. Value: TILE_PIXELS entries, row-major, AUTOMATIC or a class label;
   * AUTOMATIC beyond the photo's edge. No tile is all AUTOMATIC, so no correction means no tile.
   */
  readonly tiles: Map<number, Uint8Array<ArrayBuffer>>;
}

/**
 * A layer without corrections.
 *
 * @throws RangeError if a side is not a whole number from 1 to 65535
 */
export function emptyCorrections(widthPx: number, heightPx: number): CorrectionLayer {
  for (const side of [widthPx, heightPx]) {
    if (!Number.isInteger(side) || side < 1 || side > 65535) {
      throw new RangeError(`a side of a photo must be 1 to 65535 px, got ${side}`);
    }
  }
  return { widthPx, heightPx, tiles: new Map() };
}

/** Tiles side by side. */
export const tilesAcross = ({ widthPx }: { readonly widthPx: number }): number =>
  Math.ceil(widthPx / TILE_SIDE);

/** Tiles one above the other. */
export const tilesDown = ({ heightPx }: { readonly heightPx: number }): number =>
  Math.ceil(heightPx / TILE_SIDE);

/** The correction of one pixel, or AUTOMATIC. For single look-ups; loops read the tiles. */
export function correctionAt(layer: CorrectionLayer, x: number, y: number): number {
  const tile = layer.tiles.get(Math.floor(y / TILE_SIDE) * tilesAcross(layer) + Math.floor(x / TILE_SIDE));
  return tile ? tile[(y % TILE_SIDE) * TILE_SIDE + (x % TILE_SIDE)]! : AUTOMATIC;
}

/**
 * The label that counts: the correction where there is one in effect, else the automatic label. A pixel that is not
 * measured stays so, whatever was once said about it.
 */
export function effectiveLabel(automatic: number, correction: number): number {
  return automatic === 0 || correction === AUTOMATIC || correction >= FIRST_WAITING ? automatic : correction;
}

/** Removes a tile that holds no correction any more, so that equal layers have equal tiles. */
export function dropIfAutomatic(tiles: Map<number, Uint8Array<ArrayBuffer>>, index: number): void {
  if (tiles.get(index)?.every((entry) => entry === AUTOMATIC)) tiles.delete(index);
}
