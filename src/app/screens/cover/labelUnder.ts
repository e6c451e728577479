import type { PhotoPoint } from '../../../core/geometry/points.ts';
import { type LabelMask, NOT_MEASURED } from '../../../core/raster/labelMask.ts';
import { app } from '../../../core/text/app.ts';
import type { CoverClass } from '../../../core/trial/coverClass.ts';

/** The class of the pixel at a point in words; null beside the photo. */
export function labelUnder(
  mask: LabelMask,
  [x, y]: PhotoPoint,
  classes: readonly CoverClass[],
): string | null {
  const [column, row] = [Math.floor(x), Math.floor(y)];
  if (column < 0 || row < 0 || column >= mask.widthPx || row >= mask.heightPx) return null;
  const label = mask.labels[row * mask.widthPx + column]!;
  if (label === NOT_MEASURED) return app.cover.underNothing;
  return app.cover.under(classes[label - 1]!.name, column, row);
}
