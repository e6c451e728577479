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
  const rowLabels = new Uint8Array(widthCells * factor);
  let expanded = -1;
  for (let y = bounds.top; y < bounds.bottom; y += 1) {
    const row = Math.floor((y - topPx) / factor);
    if (row !== expanded) {
      expandRow(cellLabels.subarray(row * widthCells, (row + 1) * widthCells), factor, rowLabels);
      expanded = row;
    }
    const first = y * widthPx + leftPx;
    fillRow(labels, inside, rowLabels, first, y * widthPx + bounds.left, y * widthPx + bounds.right);
  }
  return { widthPx, heightPx, labels };
}

/** Repeats each label `factor` times. */
function expandRow(cells: Uint8Array, factor: number, out: Uint8Array): void {
  let pixel = 0;
  for (let column = 0; column < cells.length; column += 1) {
    const label = cells[column]!;
    for (const end = pixel + factor; pixel < end; pixel += 1) out[pixel] = label;
  }
}

/**
 * The row's first run of measured pixels is copied as a whole, and mostly is all of it. After a hole, a product with
 * `inside`, which is 1 or 0, keeps what is not measured at 0 without a branch.
 */
function fillRow(
  labels: Uint8Array,
  inside: Uint8Array,
  rowLabels: Uint8Array,
  rowStart: number,
  start: number,
  end: number,
): void {
  const row = inside.subarray(start, end);
  const from = row.indexOf(1);
  if (from < 0) return;
  const hole = row.indexOf(0, from);
  const runEnd = hole < 0 ? end : start + hole;
  labels.set(rowLabels.subarray(start + from - rowStart, runEnd - rowStart), start + from);
  for (let pixel = runEnd; pixel < end; pixel += 1)
    labels[pixel] = rowLabels[pixel - rowStart]! * inside[pixel]!;
}
