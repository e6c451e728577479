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
  const { bounds, widthPx, inside } = area;
  const { labels } = mask;
  const pixels = new Float64Array(256);
  const ground = new Float64Array(256);
  const weights = new Int32Array(widthPx);
  for (let y = bounds.top; y < bounds.bottom; y += 1) {
    fillGroundWeights(area, y, weights);
    const row = y * widthPx;
    // neighbours mostly have one label: a run of them is added up in registers and booked at its end
    let label = 0;
    let runPixels = 0;
    let runGround = 0;
    for (let x = bounds.left; x < bounds.right; x += 1) {
      if (inside[row + x] === 0) continue;
      const next = labels[row + x]!;
      if (next !== label) {
        pixels[label]! += runPixels;
        ground[label]! += runGround;
        label = next;
        runPixels = 0;
        runGround = 0;
      }
      runPixels += 1;
      runGround += weights[x]!;
    }
    pixels[label]! += runPixels;
    ground[label]! += runGround;
  }
  const unknown = pixels.findLastIndex((count) => count > 0);
  if (unknown > classCount)
    throw new RangeError(`the mask holds label ${unknown}: there are ${classCount} classes`);
  return { pixels: pixels.slice(0, classCount + 1), ground: ground.slice(0, classCount + 1) };
}
