import { fillGroundWeights, LARGEST_GROUND_WEIGHT, type MeasuredArea } from '../geometry/measuredArea.ts';
import { layOut } from '../kernels/kernelMemory.ts';
import { type Kernels, loadKernels } from '../kernels/kernels.ts';
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
  const kernels = loadKernels();
  const counts = kernels && classCountsBy(kernels, mask, area, classCount);
  return counts ?? plainClassCounts(mask, area, classCount);
}

/** Each label costs the kernel a pass over the row. */
const MOST_LABELS_BY_KERNEL = 16;

/** The same by kernels; null where they cannot: with many classes, or where a label is none of them. */
export function classCountsBy(
  kernels: Kernels,
  { labels }: LabelMask,
  { bounds, widthPx, inside, groundMap, measuredPixels }: MeasuredArea,
  classCount: number,
): ClassCounts | null {
  const labelCount = classCount + 1;
  if (labelCount > MOST_LABELS_BY_KERNEL) return null;
  const { left, right, top, bottom } = bounds;
  const padded = Math.ceil((right - left) / 16) * 16;
  const [pixelsAt, groundAt, weightsAt, labelsAt, insideAt] = layOut(kernels, [
    4 * labelCount,
    8 * labelCount,
    2 * padded,
    padded,
    padded,
  ]);
  const { buffer } = kernels.memory;
  const pixels = new Uint32Array(buffer, pixelsAt, labelCount).fill(0);
  const ground = new BigUint64Array(buffer, groundAt, labelCount).fill(0n);
  const rowLabels = new Uint8Array(buffer, labelsAt, padded);
  const rowInside = new Uint8Array(buffer, insideAt, padded).fill(0);
  new Uint16Array(buffer, weightsAt, padded).fill(1);
  for (let y = top; y < bottom; y += 1) {
    const row = y * widthPx;
    rowLabels.set(labels.subarray(row + left, row + right));
    rowInside.set(inside.subarray(row + left, row + right));
    if (groundMap) {
      const [, , , , , , g, h, i] = groundMap;
      kernels.groundWeights(g, h * (y + 0.5) + i, left, padded, LARGEST_GROUND_WEIGHT, weightsAt);
    }
    kernels.countLabels(labelsAt, insideAt, weightsAt, padded, labelCount, pixelsAt, groundAt);
  }
  const counted = { pixels: Float64Array.from(pixels), ground: Float64Array.from(ground, Number) };
  return counted.pixels.reduce((sum, count) => sum + count, 0) === measuredPixels ? counted : null;
}

/** The same in plain code. */
export function plainClassCounts(mask: LabelMask, area: MeasuredArea, classCount: number): ClassCounts {
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
