import type { PixelBox } from '../geometry/pixelBox.ts';
import { boxRound } from '../geometry/pixelBox.ts';
import { collectRuns, type PixelRuns } from '../geometry/pixelRuns.ts';
import type { LabelMask } from '../raster/labelMask.ts';
import { type MaskEdit, paintRuns } from './maskEdit.ts';

/** Wider discs would no longer smooth an outline but choose the class of whole regions. */
const LARGEST_RADIUS_PX = 127;

/**
 * Smooths the outlines of classes: each pixel of the region takes the class that most pixels round it have.
 *
 * Round it: measured pixels whose centre lies within the radius, seen as they were before. A pixel keeps its class
 * unless another is strictly more frequent; among equals the first in class order wins. Small specks are given to
 * their surroundings, so cover moves towards the class that prevails: show the figure before and after.
 * Cost: pixels of the region times the radius.
 *
 * @param radiusPx 0..127; below 1 nothing changes
 * @returns the smallest box round the pixels that changed, null when none did
 * @throws RangeError if the radius is out of range
 */
export function smoothOutline(edit: MaskEdit, region: PixelRuns, radiusPx: number): PixelBox | null {
  const { effective, classCount } = edit.mask;
  return paintMajority(edit, majorityRuns(effective, classCount, region, radiusPx));
}

/** Paints what `majorityRuns` answered. @returns the smallest box round the pixels that changed, null when none did */
export function paintMajority(edit: MaskEdit, majority: readonly PixelRuns[]): PixelBox | null {
  return majority.map((runs, index) => paintRuns(edit, runs, { label: index + 1 })).reduce(boxRound, null);
}

/**
 * The first half of `smoothOutline`, which a worker can do: for each class in order, the pixels that change to it.
 *
 * @throws RangeError if the radius is out of range
 */
export function majorityRuns(
  mask: LabelMask,
  classCount: number,
  region: PixelRuns,
  radiusPx: number,
): PixelRuns[] {
  if (!(radiusPx >= 0 && radiusPx <= LARGEST_RADIUS_PX)) {
    throw new RangeError(`the radius must be 0 to ${LARGEST_RADIUS_PX} px, got ${radiusPx}`);
  }
  const { widthPx, heightPx, labels } = mask;
  const radius = Math.floor(radiusPx);
  const halfWidths = Int32Array.from({ length: 2 * radius + 1 }, (_, i) =>
    Math.floor(Math.sqrt(radiusPx * radiusPx - (i - radius) * (i - radius))),
  );
  const counts = new Int32Array(256);
  const found: [y: number, from: number, to: number][][] = Array.from({ length: classCount + 1 }, () => []);
  const { runs } = region;
  for (let run = 0; run < runs.length; run += 3) {
    const y = runs[run]!;
    const from = runs[run + 1]!;
    const to = runs[run + 2]!;
    const firstRow = Math.max(0, y - radius);
    const lastRow = Math.min(heightPx - 1, y + radius);
    // the disc round the first pixel
    counts.fill(0);
    for (let row = firstRow; row <= lastRow; row += 1) {
      const half = halfWidths[row - y + radius]!;
      const end = Math.min(widthPx - 1, from + half);
      for (let x = Math.max(0, from - half); x <= end; x += 1) counts[labels[row * widthPx + x]!]! += 1;
    }
    for (let x = from; x < to; x += 1) {
      const own = labels[y * widthPx + x]!;
      if (own !== 0) {
        let winner = own;
        for (let label = 1; label <= classCount; label += 1) {
          if (counts[label]! > counts[winner]!) winner = label;
        }
        if (winner !== own) addPixel(found[winner]!, y, x);
      }
      // slide the disc by one
      for (let row = firstRow; row <= lastRow; row += 1) {
        const half = halfWidths[row - y + radius]!;
        if (x - half >= 0) counts[labels[row * widthPx + x - half]!]! -= 1;
        if (x + 1 + half < widthPx) counts[labels[row * widthPx + x + 1 + half]!]! += 1;
      }
    }
  }
  return found.slice(1).map((list) =>
    collectRuns((visit) => {
      for (const [y, from, to] of list) visit(y, from, to);
    }),
  );
}

function addPixel(list: [y: number, from: number, to: number][], y: number, x: number): void {
  const last = list.at(-1);
  if (last && last[0] === y && last[2] === x) last[2] = x + 1;
  else list.push([y, x, x + 1]);
}
