import type { MeasuredArea } from '../geometry/measuredArea.ts';
import type { LabelMask } from '../raster/labelMask.ts';
import { type ClassCounts, classCounts } from './classCounts.ts';

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
  return coverOfCounts(classCounts(mask, area, classCount));
}

/**
 * Cover from class counts, one entry a class in label order.
 *
 * @returns null where nothing is measured
 * @throws RangeError if measured pixels have no label
 */
export function coverOfCounts({ pixels, ground }: ClassCounts): CoverShare[] | null {
  if (pixels[0]! > 0) throw new RangeError(`${pixels[0]} measured pixels have no label`);
  let all = 0;
  for (const sum of ground) all += sum;
  if (all === 0) return null;
  return Array.from({ length: pixels.length - 1 }, (_, i) => ({
    pixels: pixels[i + 1]!,
    coverFraction: ground[i + 1]! / all,
  }));
}
