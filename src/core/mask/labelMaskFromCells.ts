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
    const firstCell = Math.floor((y - topPx) / factor) * widthCells;
    const cells = cellLabels.subarray(firstCell, firstCell + widthCells);
    const first = y * widthPx;
    fillRow(labels, inside, cells, factor, first + leftPx, first + bounds.left, first + bounds.right);
  }
  return { widthPx, heightPx, labels };
}

/** `inside` is 1 or 0, so a product keeps what is not measured at 0 without a branch. */
function fillRow(
  labels: Uint8Array,
  inside: Uint8Array,
  cells: Uint8Array,
  factor: number,
  firstCellStart: number,
  start: number,
  end: number,
): void {
  let pixel = start;
  let stop = Math.min(firstCellStart + factor, end);
  for (let column = 0; column < cells.length; column += 1) {
    const label = cells[column]!;
    for (; pixel < stop; pixel += 1) labels[pixel] = label * inside[pixel]!;
    stop = Math.min(stop + factor, end);
  }
}
