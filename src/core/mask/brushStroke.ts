import type { PixelBox } from '../geometry/pixelBox.ts';
import { type BrushPoint, forEachBrushRun } from './brushRuns.ts';
import { type MaskEdit, type Paint, type Painter, painterOf } from './maskEdit.ts';

/** A brush on its way. Fed point by point; each feed reaches only what the brush covers since the last point. */
export interface BrushStroke {
  /**
   * Moves the brush on, in a straight line from the point before.
   *
   * @returns the smallest box round the pixels that this move changed, null when none did
   */
  moveTo(point: BrushPoint): PixelBox | null;
}

/**
 * Puts a brush down in an open edit. The strokes of one edit become one patch when the edit is finished.
 *
 * However finely a straight way is divided into moves, a brush of radius 0.71 px or more paints the same pixels, but for
 * those whose centre lies on the rim to within rounding. (A thinner one also paints the pixel under each point.)
 *
 * @throws RangeError if the label is no class
 */
export function beginStroke(edit: MaskEdit, paint: Paint): BrushStroke {
  const { widthPx, heightPx } = edit.mask.automatic;
  painterOf(edit, paint); // a wrong label is told now, not at the first move
  let last: BrushPoint | null = null;
  return {
    moveTo(point) {
      const painter: Painter = painterOf(edit, paint);
      forEachBrushRun(last ?? point, point, widthPx, heightPx, painter.paintRun);
      last = point;
      return painter.changedBox();
    },
  };
}
