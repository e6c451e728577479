import type { CorrectedMask } from './correctedMask.ts';
import {
  AUTOMATIC,
  type CorrectionLayer,
  dropIfAutomatic,
  effectiveLabel,
  FIRST_WAITING,
  TILE_PIXELS,
} from './correctionLayer.ts';
import { type CorrectionPatch, forEachChangedRow, forEachTileRun } from './correctionPatch.ts';

/**
 * Applies a patch to a layer, in place. To undo, apply the inverted patch.
 *
 * @throws RangeError if the sizes differ or a pixel does not hold what the patch found there; the layer is then unchanged
 */
export function applyPatchToLayer(layer: CorrectionLayer, patch: CorrectionPatch): void {
  const { tiles } = layer;
  if (layer.widthPx !== patch.widthPx || layer.heightPx !== patch.heightPx) {
    throw new RangeError(
      `a patch of a ${patch.widthPx} x ${patch.heightPx} photo does not fit corrections of ${layer.widthPx} x ${layer.heightPx}`,
    );
  }
  forEachTileRun(patch, (index, offset, length, before) => {
    const tile = tiles.get(index);
    for (let i = offset; i < offset + length; i += 1) {
      const found = tile ? tile[i]! : AUTOMATIC;
      if (found !== before) {
        throw new RangeError(
          `tile ${index}, pixel ${i} holds ${found}, the patch was made where it held ${before}`,
        );
      }
    }
  });
  const touched = new Set<number>();
  forEachTileRun(patch, (index, offset, length, _before, after) => {
    let tile = tiles.get(index);
    if (!tile) {
      tile = new Uint8Array(TILE_PIXELS);
      tiles.set(index, tile);
    }
    tile.fill(after, offset, offset + length);
    touched.add(index);
  });
  for (const index of touched) dropIfAutomatic(tiles, index);
}

/**
 * Applies a patch to a mask's corrections and brings its effective labels in step, in place.
 *
 * What changed on screen lies in `patch.dirtyBox`.
 *
 * @throws RangeError as `applyPatchToLayer`, while an edit is open, or if the patch holds a label that is no class;
 * the mask is then unchanged
 */
export function applyPatch(mask: CorrectedMask, patch: CorrectionPatch): void {
  const { automatic, corrections, effective, classCount } = mask;
  if (mask.editing) throw new RangeError('an edit of this mask is open: finish or abandon it first');
  forEachTileRun(patch, (_index, _offset, _length, _before, after) => {
    if (after > classCount && after < FIRST_WAITING)
      throw new RangeError(`the patch holds label ${after}: there are ${classCount} classes`);
  });
  applyPatchToLayer(corrections, patch);
  forEachChangedRow(patch, (y, from, to, _before, after) => {
    const end = y * automatic.widthPx + to;
    for (let i = y * automatic.widthPx + from; i < end; i += 1) {
      effective.labels[i] = effectiveLabel(automatic.labels[i]!, after);
    }
  });
}
