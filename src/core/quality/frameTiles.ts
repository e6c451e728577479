import type { PixelBox } from '../geometry/pixelBox.ts';
import type { PhotoPoint, Quadrilateral } from '../geometry/points.ts';

/** Side of a tile, and room round it for neighbours at a distance. */
export const TILE_PX = 48;
const ROOM_PX = 16;
const TILES_ACROSS = 10;

/**
 * Square tiles spread evenly over the frame (over the middle four fifths of the photo without one), all inside the photo
 * with room round them. Looking at these instead of every pixel keeps the verdict quick at any size of photo.
 */
export function frameTiles(
  frame: Quadrilateral<'photo'> | null,
  widthPx: number,
  heightPx: number,
): PixelBox[] {
  const area = frame ?? inset(widthPx, heightPx);
  const tiles: PixelBox[] = [];
  for (let row = 0; row < TILES_ACROSS; row += 1) {
    for (let column = 0; column < TILES_ACROSS; column += 1) {
      const [x, y] = within(area, (column + 0.7) / (TILES_ACROSS + 0.4), (row + 0.7) / (TILES_ACROSS + 0.4));
      const left = Math.round(x - TILE_PX / 2);
      const top = Math.round(y - TILE_PX / 2);
      const right = left + TILE_PX;
      const bottom = top + TILE_PX;
      if (left < ROOM_PX || top < ROOM_PX || right + ROOM_PX > widthPx || bottom + ROOM_PX > heightPx)
        continue;
      tiles.push({ left, top, right, bottom });
    }
  }
  return tiles;
}

function inset(widthPx: number, heightPx: number): readonly (readonly [number, number])[] {
  const [l, t, r, b] = [0.1 * widthPx, 0.1 * heightPx, 0.9 * widthPx, 0.9 * heightPx];
  return [
    [l, t],
    [r, t],
    [r, b],
    [l, b],
  ];
}

/** The point at shares u and v of a quadrilateral's width and height. */
export function within(
  corners: readonly (PhotoPoint | readonly [number, number])[],
  u: number,
  v: number,
): readonly [number, number] {
  const [a, b, c, d] = corners as [PhotoPoint, PhotoPoint, PhotoPoint, PhotoPoint];
  const at = (k: 0 | 1) => (1 - v) * ((1 - u) * a[k] + u * b[k]) + v * ((1 - u) * d[k] + u * c[k]);
  return [at(0), at(1)];
}
