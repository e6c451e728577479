import type { ReducedPicture } from '../frame/reducedPicture.ts';
import type { Quadrilateral } from '../geometry/points.ts';
import { within } from './frameTiles.ts';

/** The strongest division of the frame into a light and a dark part by one straight line. */
export interface ShadowEdge {
  /** Light on the light side over light on the dark side, near the line; 1 where there is no edge. */
  readonly lightRatio: number;
  /** Share of the frame on the dark side. */
  readonly darkFraction: number;
}

const CELLS = 40;
const ANGLES = 24;
/** Cells compared on each side of a line, beginning one cell off it, since shadows of a person have a soft rim. */
const NEAR = 1;
const FAR = 5;
const SMALLEST_SIDE = 0.06;

/** Linear light of display values; a power of 2.2 is near enough to sRGB for ratios. */
const LIGHT = Float64Array.from({ length: 256 }, (_, value) => (value / 255) ** 2.2);

/**
 * Looks for a hard shadow's edge across the frame.
 *
 * Light of turf, mean over cells a fortieth of the frame wide, is compared in bands on both sides of straight lines at 24
 * angles: the median of the cells' ratios across the line, so that a patch of soil or one bright tuft does not count.
 */
export function shadowEdge(picture: ReducedPicture, frame: Quadrilateral<'photo'> | null): ShadowEdge {
  const cells = cellLights(picture, frame);
  let best: ShadowEdge = { lightRatio: 1, darkFraction: 0 };
  for (let k = 0; k < ANGLES; k += 1) {
    const angle = (Math.PI * k) / ANGLES;
    const [nx, ny] = [Math.cos(angle), Math.sin(angle)];
    for (let offset = -CELLS / 2; offset <= CELLS / 2; offset += 1) {
      const found = divide(cells, nx, ny, offset);
      if (found && found.lightRatio > best.lightRatio) best = found;
    }
  }
  return best;
}

/** Logarithm of mean light in each cell, row-major. */
function cellLights(picture: ReducedPicture, frame: Quadrilateral<'photo'> | null): Float64Array {
  const { widthPx, heightPx, factor, red, green, blue } = picture;
  const [w, h] = [widthPx * factor, heightPx * factor];
  const corners = frame ?? [[0, 0] as const, [w, 0] as const, [w, h] as const, [0, h] as const];
  const per = 6;
  const cells = new Float64Array(CELLS * CELLS);
  for (let row = 0; row < CELLS * per; row += 1) {
    for (let column = 0; column < CELLS * per; column += 1) {
      const [x, y] = within(
        corners,
        0.02 + (0.96 * (column + 0.5)) / (CELLS * per),
        0.02 + (0.96 * (row + 0.5)) / (CELLS * per),
      );
      const at =
        Math.min(heightPx - 1, Math.max(0, Math.floor(y / factor))) * widthPx +
        Math.min(widthPx - 1, Math.max(0, Math.floor(x / factor)));
      cells[Math.floor(row / per) * CELLS + Math.floor(column / per)]! +=
        LIGHT[red[at]!]! + 2 * LIGHT[green[at]!]! + LIGHT[blue[at]!]!;
    }
  }
  return cells.map((light) => Math.log(light / (4 * per * per) + 1e-3));
}

function divide(cells: Float64Array, nx: number, ny: number, offset: number): ShadowEdge | null {
  const middle = (CELLS - 1) / 2;
  // walk along the line cell by cell, comparing what lies before and behind it
  const room = new Float64Array(2 * CELLS + 1);
  let count = 0;
  const mean = (x: number, y: number, sign: number): number | null => {
    let sum = 0;
    for (let step = NEAR; step <= FAR; step += 1) {
      const column = Math.round(x + sign * step * nx);
      const row = Math.round(y + sign * step * ny);
      if (column < 0 || row < 0 || column >= CELLS || row >= CELLS) return null;
      sum += cells[row * CELLS + column]!;
    }
    return sum / (FAR - NEAR + 1);
  };
  for (let along = -CELLS; along <= CELLS; along += 1) {
    const x = middle + offset * nx - along * ny;
    const y = middle + offset * ny + along * nx;
    if (x < 0 || y < 0 || x > CELLS - 1 || y > CELLS - 1) continue;
    const before = mean(x, y, -1);
    const behind = before === null ? null : mean(x, y, 1);
    if (before !== null && behind !== null) room[count++] = behind - before;
  }
  if (count < CELLS / 2) return null;
  const differences = room.subarray(0, count).sort();
  // nearly the whole line has to step the same way: the weakest fifth decides
  const fifth = Math.floor(count / 5);
  const rising = differences[fifth]!;
  const falling = -differences[count - 1 - fifth]!;
  const step = Math.max(rising, falling);
  if (step <= 0) return null;
  const darkBehind = falling > rising;
  const before = shareBefore(nx, ny, offset);
  const darkFraction = darkBehind ? 1 - before : before;
  if (darkFraction < SMALLEST_SIDE || darkFraction > 1 - SMALLEST_SIDE) return null;
  return { lightRatio: Math.exp(step), darkFraction };
}

function shareBefore(nx: number, ny: number, offset: number): number {
  const middle = (CELLS - 1) / 2;
  let count = 0;
  for (let y = 0; y < CELLS; y += 1) {
    for (let x = 0; x < CELLS; x += 1) if ((x - middle) * nx + (y - middle) * ny < offset) count += 1;
  }
  return count / (CELLS * CELLS);
}
