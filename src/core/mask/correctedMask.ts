import type { LabelMask } from '../raster/labelMask.ts';
import {
  type CorrectionLayer,
  effectiveLabel,
  FIRST_WAITING,
  TILE_PIXELS,
  TILE_SIDE,
  tilesAcross,
} from './correctionLayer.ts';

/** A mask while it is corrected: what was computed, what was said by hand, and what counts. */
export interface CorrectedMask {
  readonly automatic: LabelMask;
  readonly corrections: CorrectionLayer;
  /** `effectiveLabel` of every pixel, kept in step by edits and patches. */
  readonly effective: LabelMask;
  /** Labels are 1..classCount. */
  readonly classCount: number;
  /** Whether an edit is open; patches wait until it ends. */
  editing: boolean;
}

/**
 * Lays corrections over an automatic mask. The two arguments are kept, not copied; edits change the layer.
 *
 * After a changed frame or model, lay the same corrections over the new automatic mask.
 *
 * @throws RangeError if the sizes differ or a correction is no class
 */
export function correctedMask(
  automatic: LabelMask,
  corrections: CorrectionLayer,
  classCount: number,
): CorrectedMask {
  const { widthPx, heightPx } = automatic;
  if (corrections.widthPx !== widthPx || corrections.heightPx !== heightPx) {
    throw new RangeError(
      `corrections of a ${corrections.widthPx} x ${corrections.heightPx} photo do not fit a mask of ${widthPx} x ${heightPx}`,
    );
  }
  const labels = automatic.labels.slice();
  const across = tilesAcross(corrections);
  for (const [index, tile] of corrections.tiles) {
    const left = (index % across) * TILE_SIDE;
    const top = Math.floor(index / across) * TILE_SIDE;
    for (let i = 0; i < TILE_PIXELS; i += 1) {
      const correction = tile[i]!;
      if (correction === 0 || correction >= FIRST_WAITING) continue;
      const x = left + (i % TILE_SIDE);
      const y = top + Math.floor(i / TILE_SIDE);
      if (correction > classCount) {
        throw new RangeError(`correction ${correction} at ${x},${y}: there are ${classCount} classes`);
      }
      const pixel = y * widthPx + x;
      labels[pixel] = effectiveLabel(labels[pixel]!, correction);
    }
  }
  return { automatic, corrections, effective: { widthPx, heightPx, labels }, classCount, editing: false };
}
