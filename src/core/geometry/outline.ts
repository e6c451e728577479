import type { PhotoPoint } from './points.ts';

/*
 * Ground measured inside a free outline is written as an ignored area that holds everything else: round the photo's
 * edge, over to the outline, once round it and back. By the even-odd rule the way over and back cancels out, so files
 * and figures need no other kind of area.
 */

/** The ignored area that leaves the inside of an outline of three or more points. */
export function outsideOf(
  outline: readonly PhotoPoint[],
  widthPx: number,
  heightPx: number,
): readonly PhotoPoint[] {
  const edge = photoEdge(widthPx, heightPx);
  return [...edge, edge[0]!, ...outline, outline[0]!, edge[0]!];
}

/** The outline whose outside an ignored area is; null for an area of another kind. */
export function outlineWithin(
  ignored: readonly PhotoPoint[],
  widthPx: number,
  heightPx: number,
): readonly PhotoPoint[] | null {
  const edge = photoEdge(widthPx, heightPx);
  const around = [...edge, edge[0]!];
  const outline = ignored.slice(around.length, -2);
  if (outline.length < 3 || !around.every((point, k) => same(point, ignored[k]))) return null;
  return same(outline[0]!, ignored.at(-2)) && same(edge[0]!, ignored.at(-1)) ? outline : null;
}

const photoEdge = (widthPx: number, heightPx: number): readonly PhotoPoint[] =>
  [
    [0, 0],
    [widthPx, 0],
    [widthPx, heightPx],
    [0, heightPx],
  ] as const as unknown as readonly PhotoPoint[];

const same = (a: PhotoPoint, b: PhotoPoint | undefined) => b !== undefined && a[0] === b[0] && a[1] === b[1];
