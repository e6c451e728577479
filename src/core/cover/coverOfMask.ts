import { fillGroundWeights, type MeasuredArea } from '../geometry/measuredArea.ts';
import type { LabelMask } from '../raster/labelMask.ts';

/** How much of the measured ground one class covers, counted from a mask. */
export interface CoverShare {
  /** Plain count of the pixels with this label. */
  readonly pixels: number;
  /** Share of measured ground area, 0..1: each pixel weighted by the ground it stands for. */
  readonly coverFraction: number;
}

/**
 * Counts a label mask, one entry a class in label order.
 *
 * @param classCount number of classes; labels 1..classCount
 * @returns null where nothing is measured, since no share exists then
 * @throws RangeError if the mask holds a label above classCount, or leaves a measured pixel without one
 */
export function coverOfMask(mask: LabelMask, area: MeasuredArea, classCount: number): CoverShare[] | null {
  const { bounds, widthPx } = area;
  const pixels = new Float64Array(classCount + 1);
  const ground = new Float64Array(classCount + 1);
  const weights = new Int32Array(widthPx);
  for (let y = bounds.top; y < bounds.bottom; y += 1) {
    fillGroundWeights(area, y, weights);
    const row = y * widthPx;
    for (let x = bounds.left; x < bounds.right; x += 1) {
      if (area.inside[row + x] === 0) continue;
      const label = mask.labels[row + x]!;
      if (label > classCount)
        throw new RangeError(`label ${label} at ${x},${y}: there are ${classCount} classes`);
      pixels[label]! += 1;
      ground[label]! += weights[x]!;
    }
  }
  if (pixels[0]! > 0) throw new RangeError(`${pixels[0]} measured pixels have no label`);
  if (area.measuredPixels === 0) return null;
  let all = 0;
  for (const sum of ground) all += sum;
  return Array.from({ length: classCount }, (_, i) => ({
    pixels: pixels[i + 1]!,
    coverFraction: ground[i + 1]! / all,
  }));
}
