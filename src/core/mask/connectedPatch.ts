import type { PixelBox } from '../geometry/pixelBox.ts';
import { boxOfPhoto, clippedBox } from '../geometry/pixelBox.ts';
import { collectRuns, markedRuns, type PixelRuns } from '../geometry/pixelRuns.ts';
import type { PhotoPoint } from '../geometry/points.ts';
import type { LabelMask } from '../raster/labelMask.ts';

/**
 * The connected patch of one class round a pixel: all pixels of its label that can be reached over edges (not corners).
 *
 * Flood by rows: each step takes a whole run, so the cost is linear in the patch. Needs a byte for each pixel of the box.
 *
 * @param seed the pixel (floor x, floor y)
 * @param box the patch ends at its edge @default the whole mask
 * @returns no runs where the seed lies outside the box or is not measured
 */
export function connectedPatch(
  mask: LabelMask,
  seed: PhotoPoint,
  box: PixelBox = boxOfPhoto(mask),
): PixelRuns {
  const { widthPx, labels } = mask;
  const { left, top, right, bottom } = clippedBox(box, mask);
  const [seedX, seedY] = [Math.floor(seed[0]), Math.floor(seed[1])];
  const isWithin = seedX >= left && seedX < right && seedY >= top && seedY < bottom;
  const label = isWithin ? labels[seedY * widthPx + seedX]! : 0;
  if (label === 0) return collectRuns(() => {});

  const width = right - left;
  const taken = new Uint8Array(width * (bottom - top));
  let [firstRow, lastRow] = [seedY, seedY];
  const pending = [seedX, seedY];
  while (pending.length > 0) {
    const y = pending.pop()!;
    const x = pending.pop()!;
    const row = y * widthPx;
    const takenRow = (y - top) * width - left;
    if (taken[takenRow + x] === 1) continue;
    // the run that holds this pixel
    let from = x;
    while (from > left && labels[row + from - 1] === label) from -= 1;
    let to = x + 1;
    while (to < right && labels[row + to] === label) to += 1;
    taken.fill(1, takenRow + from, takenRow + to);
    if (y < firstRow) firstRow = y;
    if (y > lastRow) lastRow = y;
    // one pixel of each run above and below that touches it
    for (let next = y - 1; next <= y + 1; next += 2) {
      if (next < top || next >= bottom) continue;
      const nextRow = next * widthPx;
      const nextTaken = (next - top) * width - left;
      let inRun = false;
      for (let column = from; column < to; column += 1) {
        const open = labels[nextRow + column] === label && taken[nextTaken + column] === 0;
        if (open && !inRun) pending.push(column, next);
        inRun = open;
      }
    }
  }
  return markedRuns(taken, { left, top, right, bottom }, firstRow, lastRow);
}
