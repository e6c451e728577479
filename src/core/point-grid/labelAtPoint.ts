import type { MeasuredArea } from '../geometry/measuredArea.ts';
import type { PhotoPoint } from '../geometry/points.ts';
import type { LabelMask } from '../raster/labelMask.ts';

/**
 * The label of a mask at a point.
 *
 * A mask already follows the trial's rule for small gaps (core/mask/gapRule.ts), and so does what a person corrected
 * in it, so nothing is asked here of what lies round the point.
 *
 * @returns 0 where the point is not measured
 */
export function labelAtPoint(
  { widthPx, heightPx, labels }: LabelMask,
  area: MeasuredArea,
  [x, y]: PhotoPoint,
): number {
  const [column, row] = [Math.floor(x), Math.floor(y)];
  if (column < 0 || row < 0 || column >= widthPx || row >= heightPx) return 0;
  return area.inside[row * widthPx + column] === 0 ? 0 : labels[row * widthPx + column]!;
}
