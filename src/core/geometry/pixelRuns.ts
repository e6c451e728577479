import type { PixelBox } from './pixelBox.ts';

/**
 * A set of pixels as horizontal runs: what polygons, brushes and fills all come down to.
 *
 * No pixel is in two runs.
 */
export interface PixelRuns {
  /** Three numbers a run: row, first column, column after the last. */
  readonly runs: Int32Array<ArrayBuffer>;
  readonly pixels: number;
  /** Smallest box round the pixels; all 0 when there are none. */
  readonly box: PixelBox;
}

/** Row, first column, column after the last. */
export type VisitRun = (y: number, from: number, to: number) => void;

/** Collects what a generator of runs visits; runs without a pixel are left out. */
export function collectRuns(generate: (visit: VisitRun) => void): PixelRuns {
  const flat: number[] = [];
  let pixels = 0;
  let [left, top, right, bottom] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY, 0, 0];
  generate((y, from, to) => {
    if (from >= to) return;
    flat.push(y, from, to);
    pixels += to - from;
    if (from < left) left = from;
    if (to > right) right = to;
    if (y < top) top = y;
    if (y >= bottom) bottom = y + 1;
  });
  const box = pixels === 0 ? { left: 0, top: 0, right: 0, bottom: 0 } : { left, top, right, bottom };
  return { runs: Int32Array.from(flat), pixels, box };
}

/**
 * Runs of the pixels marked 1 in a box, between two rows (the last included).
 *
 * @param marked row-major within the box
 */
export function markedRuns(marked: Uint8Array, box: PixelBox, firstRow: number, lastRow: number): PixelRuns {
  const width = box.right - box.left;
  return collectRuns((visit) => {
    for (let y = firstRow; y <= lastRow; y += 1) {
      const row = (y - box.top) * width;
      const end = row + width;
      for (let i = marked.indexOf(1, row); i >= 0 && i < end; i = marked.indexOf(1, i)) {
        let to = i + 1;
        while (to < end && marked[to] === 1) to += 1;
        visit(y, box.left + i - row, box.left + to - row);
        i = to;
      }
    }
  });
}

/** Whether a pixel is in the set; for tests and single look-ups, linear in the number of runs. */
export function hasPixel({ runs }: PixelRuns, x: number, y: number): boolean {
  for (let i = 0; i < runs.length; i += 3) {
    if (runs[i] === y && runs[i + 1]! <= x && x < runs[i + 2]!) return true;
  }
  return false;
}
