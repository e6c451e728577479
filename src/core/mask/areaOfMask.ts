import type { MeasureSettings } from '../cover/measurePhoto.ts';
import { type MeasuredArea, measuredArea } from '../geometry/measuredArea.ts';
import { type LabelMask, NOT_MEASURED } from '../raster/labelMask.ts';

/**
 * The measured area that a mask was made in: its measured pixels are those with a label, which leaves out what the
 * photo leaves transparent without looking at the photo again.
 *
 * @param settings those the mask was made with
 */
export function areaOfMask(
  { widthPx, heightPx, labels }: LabelMask,
  { frame, ignored, neutral }: Pick<MeasureSettings, 'frame' | 'ignored' | 'neutral'>,
): MeasuredArea {
  const area = measuredArea(widthPx, heightPx, { frame, ignored, neutral });
  const { inside } = area;
  let measuredPixels = 0;
  for (let pixel = 0; pixel < inside.length; pixel += 1) {
    if (inside[pixel] === 0) continue;
    if (labels[pixel] === NOT_MEASURED) inside[pixel] = 0;
    else measuredPixels += 1;
  }
  return { ...area, measuredPixels };
}
