/** A box that a label must not cover, or a label's own. */
export interface Box {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface PlacedLabel {
  readonly x: number;
  readonly top: number;
  readonly anchor: 'start' | 'middle' | 'end';
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
 * @returns for each label where its text is anchored, at which of its ends, and its top
 */
export function placeLabels(
  points: readonly LabelledPoint[],
  obstacles: readonly Box[],
  within: Box,
): PlacedLabel[] {
  const taken: Box[] = [
    ...obstacles,
    ...points.map(({ x, y }) => ({ x: x - 6, y: y - 6, width: 12, height: 12 })),
  ];
  return points.map(({ x, y, widthPx, heightPx }) => {
    const half = heightPx / 2;
    const places: readonly PlacedLabel[] = [
      { x: x + APART, top: y - half, anchor: 'start' },
      { x: x - APART, top: y - half, anchor: 'end' },
      { x: x + APART * 0.6, top: y - heightPx - 5, anchor: 'start' },
      { x: x + APART * 0.6, top: y + 5, anchor: 'start' },
      { x, top: y - heightPx - APART, anchor: 'middle' },
      { x, top: y + APART, anchor: 'middle' },
      { x: x - APART * 0.6, top: y - heightPx - 5, anchor: 'end' },
      { x: x - APART * 0.6, top: y + 5, anchor: 'end' },
    ];
    let best = places[0]!;
    let least = Number.POSITIVE_INFINITY;
    for (const place of places) {
      const box = boxOf(place, widthPx, heightPx);
      const cost = taken.reduce((sum, other) => sum + overlap(box, other), 0) + outside(box, within) * 4;
      if (cost < least) {
        least = cost;
        best = place;
      }
      if (cost === 0) break;
    }
    taken.push(boxOf(best, widthPx, heightPx));
    return best;
  });
}

/** Share of a label's width that lies left of its anchor. */
const LEFT_OF_ANCHOR = { start: 0, middle: 0.5, end: 1 } as const;

function boxOf({ x, top, anchor }: PlacedLabel, width: number, height: number): Box {
  return { x: x - width * LEFT_OF_ANCHOR[anchor], y: top, width, height };
}

function overlap(a: Box, b: Box): number {
  const width = Math.min(a.x + a.width, b.x + b.width) - Math.max(a.x, b.x);
  const height = Math.min(a.y + a.height, b.y + b.height) - Math.max(a.y, b.y);
  return width > 0 && height > 0 ? width * height : 0;
}

const outside = (box: Box, within: Box): number => box.width * box.height - overlap(box, within);
