import type { AnalysisGrid } from '../features/analysisGrid.ts';
import { applyGapRule } from '../mask/gapRule.ts';
import { labelMaskFromCells } from '../mask/labelMaskFromCells.ts';
import type { Classification, ClassifyRequest, CoverFlag } from './classification.ts';

/** Cells with the labels a classifier drew, before anything of the trial's definitions is done to them. */
export interface DrawnCells {
  readonly labels: Uint8Array<ArrayBuffer>;
  readonly grid: AnalysisGrid;
  /** Ground of each cell. */
  readonly groundWeight: Int32Array;
}

/** The last step of every classifier: the trial's rule for gaps, the mask of the photo, and what it adds up to. */
export function classifiedCells(
  { labels: drawn, grid, groundWeight }: DrawnCells,
  { area, classes, gapRule }: ClassifyRequest,
  found: Iterable<CoverFlag>,
): Classification {
  const ruled = applyGapRule(drawn, grid, classes, gapRule);
  const labels = ruled ?? drawn;
  return {
    mask: labelMaskFromCells(labels, grid, area),
    coverFraction: cellShares(labels, groundWeight, classes.length),
    flags: ruled ? [...found] : [...found, 'gap-rule-needs-scale'],
  };
}

/** Ground of each label 1..classCount as a share of all of it, 0..1. */
export function cellShares(cellLabels: Uint8Array, groundWeight: Int32Array, classCount: number): number[] {
  const sums = new Float64Array(classCount + 1);
  for (let cell = 0; cell < cellLabels.length; cell += 1) sums[cellLabels[cell]!]! += groundWeight[cell]!;
  const total = sums.reduce((sum, value) => sum + value, 0);
  return Array.from(sums.subarray(1), (sum) => sum / total);
}
