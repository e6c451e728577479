import type { AnalysisGrid } from '../features/analysisGrid.ts';
import type { MeasuredArea } from '../geometry/measuredArea.ts';
import type { LabelMask } from '../raster/labelMask.ts';

/** The label mask of a photo in which each measured pixel has the label of its cell. */
export function labelMaskFromCells(
  cellLabels: Uint8Array,
  grid: AnalysisGrid,
  area: MeasuredArea,
): LabelMask {
  const { widthPx, heightPx, inside, bounds } = area;
  const { factor, widthCells, leftPx, topPx } = grid;
  const labels = new Uint8Array(widthPx * heightPx);
  for (let y = bounds.top; y < bounds.bottom; y += 1) {
    let cell = Math.floor((y - topPx) / factor) * widthCells;
    let cellEnd = leftPx + factor;
    for (let x = bounds.left; x < bounds.right; x += 1) {
      if (x === cellEnd) {
        cell += 1;
        cellEnd += factor;
      }
      const pixel = y * widthPx + x;
      if (inside[pixel] === 1) labels[pixel] = cellLabels[cell]!;
    }
  }
  return { widthPx, heightPx, labels };
}
