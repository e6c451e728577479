/** A box that a label must not cover, or a label's own. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

interface LabelledPoint {
  readonly x: number;
  readonly y: number;
  readonly widthPx: number;
  readonly heightPx: number;
}

/** Distance of a label from its point. */
const APART = 10;

/**
 * A place for the label of each point: right, left, above, below or at a corner, the first that covers neither another point nor a
 * label placed before it; where none is free, the one that covers least.
 *
 * @param obstacles boxes to stay clear of, besides the points themselves
 * @param within labels stay inside of this box
 * @returns top left corner of each label
 */
export function placeLabels(
  points: readonly LabelledPoint[],
  obstacles: readonly Box[],
  within: Box,
): { readonly x: number; readonly y: number }[] {
  const taken: Box[] = [
    ...obstacles,
    ...points.map(({ x, y }) => ({ x: x - 6, y: y - 6, width: 12, height: 12 })),
  ];
  return points.map(({ x, y, widthPx, heightPx }) => {
    const half = heightPx / 2;
    const places = [
      [x + APART, y - half],
      [x - APART - widthPx, y - half],
      [x + APART * 0.6, y - heightPx - 5],
      [x + APART * 0.6, y + 5],
      [x - widthPx / 2, y - heightPx - APART],
      [x - widthPx / 2, y + APART],
      [x - APART * 0.6 - widthPx, y - heightPx - 5],
      [x - APART * 0.6 - widthPx, y + 5],
    ] as const;
    let best: Box | undefined;
    let least = Number.POSITIVE_INFINITY;
    for (const [left, top] of places) {
      const box = { x: left, y: top, width: widthPx, height: heightPx };
      const cost = taken.reduce((sum, other) => sum + overlap(box, other), 0) + outside(box, within) * 4;
      if (cost < least) {
        least = cost;
        best = box;
      }
      if (cost === 0) break;
    }
    taken.push(best!);
    return { x: best!.x, y: best!.y };
  });
}

function overlap(a: Box, b: Box): number {
  const width = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
  const height = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y);
  return width > 0 && height > 0 ? width * height : 0;
}

const outside = (box: Box, within: Box): number => box.width * box.height - overlap(box, within);
