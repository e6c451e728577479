import { fillGroundWeights, type MeasuredArea } from '../geometry/measuredArea.ts';
import type { LabelMask } from '../raster/labelMask.ts';

/**
 * Measured pixels and ground by label: index 0 holds measured pixels without a label, 1.. the classes.
 *
 * All are whole numbers below 2^53, so counts that are updated edit by edit equal a recount exactly.
 */
export interface ClassCounts {
  readonly pixels: Float64Array<ArrayBuffer>;
  /** Sums of ground weights; only their ratios mean something. */
  readonly ground: Float64Array<ArrayBuffer>;
}

/**
 * Counts the measured pixels of a mask by label.
 *
 * @param classCount number of classes; labels 1..classCount
 * @throws RangeError if the mask holds a label above classCount
 */
export function classCounts(mask: LabelMask, area: MeasuredArea, classCount: number): ClassCounts {
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
  return { pixels, ground };
}
