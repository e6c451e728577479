import type { AnalysisGrid } from '../features/analysisGrid.ts';

/** A radius on the ground in whole cells, 1 or more; without a scale, the number of cells given for that case. */
export function radiusInCells(grid: AnalysisGrid, radiusMm: number, withoutScale: number): number {
  if (grid.millimetresPerCell === null) return withoutScale;
  return Math.min(127, Math.max(1, Math.round(radiusMm / grid.millimetresPerCell)));
}
