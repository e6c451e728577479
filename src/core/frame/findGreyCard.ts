import { collectRuns } from '../geometry/pixelRuns.ts';
import { type PhotoPoint, photoPoint, type Quadrilateral } from '../geometry/points.ts';
import { forEachPolygonRun } from '../geometry/polygonRuns.ts';
import { smallestRectangle } from '../geometry/smallestRectangle.ts';
import type { RgbaRaster } from '../raster/rgbaRaster.ts';
import { SEARCH_SIDE_PX } from './findFrame.ts';
import { type ReducedPicture, reducePicture } from './reducedPicture.ts';

/** A neutral reference in the photo. */
export type GreyCardFinding =
  | {
      readonly found: true;
      /** Left, top, width, height of a rectangle that lies inside the card, in whole pixels of the photo. */
      readonly rectangle: readonly [number, number, number, number];
      /** The whole card and a little beyond its edge: no turf is to be seen here. */
      readonly outline: Quadrilateral<'photo'>;
      /** Mean red, green and blue in it, 0..255. */
      readonly colour: readonly [number, number, number];
      readonly warnings: readonly GreyCardWarning[];
    }
  | { readonly found: false };

/** The card is so light or so dark that a channel is cut off or coarse: no factors can be taken from it. */
export type GreyCardWarning = 'grey-card-too-light' | 'grey-card-too-dark';

export interface FindGreyCardOptions {
  /** The photo reduced before, where a caller has it at hand; else it is made here. */
  readonly reduced?: ReducedPicture;
}

/** Squares of the reduced picture that are looked at as one. */
const BLOCK_PX = 4;
/** Mean difference between neighbouring pixels in a block, in levels: cards lie near 1 or 2, turf at 6 and more. */
const SMOOTH_LEVELS = 4;
/** And at most this share of what is usual inside the frame, so that blurred turf is no card. */
const SMOOTH_SHARE = 0.4;
/** The rectangle stays this far from the edge of the blocks that belong to the card. */
const MARGIN_PX = 2;
/** How far red and blue may be from green, as a share of green: daylight casts stay within it, turf and soil do not. */
const NEUTRAL_SHARE = 0.22;
/** Area as a share of the frame's. */
const SMALLEST_SHARE = 0.002;
const LARGEST_SHARE = 0.15;
const FEWEST_BLOCKS = 9;
/** Area over that of a rectangle with the same spread: 1 for a rectangle, less for a ragged patch. */
const LEAST_FILL = 0.75;
const LONGEST_ASPECT = 2.5;
/** How far the outline reaches beyond the blocks that lie wholly on the card. */
const OUTLINE_MARGIN_BLOCKS = 1.25;
const TOO_LIGHT = 245;
const TOO_DARK = 25;

/**
 * Finds a grey card inside the frame: a smooth, nearly neutral, rectangular patch.
 *
 * The rectangle keeps clear of the card's edge, for `neutralGains` takes the mean of all its pixels.
 */
export function findGreyCard(
  photo: RgbaRaster,
  frame: Quadrilateral<'photo'>,
  options: FindGreyCardOptions = {},
): GreyCardFinding {
  const reduced = options.reduced ?? reducePicture(photo, SEARCH_SIDE_PX);
  const blocks = neutralBlocks(reduced, frame);
  const patches = connectedPatches(blocks).filter((patch) => isCard(patch, blocks.inFrame));
  patches.sort((a, b) => b.members.length - a.members.length);
  const card = patches[0];
  if (!card) return { found: false };
  const rectangle = rectangleInside(card, blocks.columns);
  if (!rectangle) return { found: false };
  const { factor } = reduced;
  const colour = meanColour(reduced, rectangle);
  const warnings: GreyCardWarning[] = [];
  if (Math.max(...colour) > TOO_LIGHT) warnings.push('grey-card-too-light');
  if (Math.min(...colour) < TOO_DARK) warnings.push('grey-card-too-dark');
  const [x, y, w, h] = rectangle;
  return {
    found: true,
    rectangle: [x * factor, y * factor, w * factor, h * factor],
    outline: outlineOf(card, blocks.columns, factor),
    colour,
    warnings,
  };
}

interface Blocks {
  readonly columns: number;
  readonly rows: number;
  /** 1 where smooth and neutral. */
  readonly marked: Uint8Array;
  /** Blocks inside the frame. */
  readonly inFrame: number;
}

function neutralBlocks(picture: ReducedPicture, frame: Quadrilateral<'photo'>): Blocks {
  const { widthPx, red, green, blue, factor } = picture;
  const columns = Math.floor(picture.widthPx / BLOCK_PX);
  const rows = Math.floor(picture.heightPx / BLOCK_PX);
  const polygon = frame.map(([x, y]) => photoPoint(x / factor / BLOCK_PX, y / factor / BLOCK_PX));
  const { runs, pixels } = collectRuns((visit) => forEachPolygonRun(polygon, columns, rows, visit));
  const differences = new Uint16Array(columns * rows);
  const neutral = new Uint8Array(columns * rows);
  const all: number[] = [];
  for (let k = 0; k < runs.length; k += 3) {
    const row = runs[k]!;
    for (let column = runs[k + 1]! + 1; column < runs[k + 2]! - 1; column += 1) {
      let [r, g, b, difference] = [0, 0, 0, 0];
      for (let y = row * BLOCK_PX; y < (row + 1) * BLOCK_PX; y += 1) {
        const start = y * widthPx + column * BLOCK_PX;
        for (let i = start; i < start + BLOCK_PX; i += 1) {
          r += red[i]!;
          g += green[i]!;
          b += blue[i]!;
          const below = i + widthPx < green.length ? green[i + widthPx]! : green[i]!;
          difference += Math.abs(green[i]! - green[i + 1]!) + Math.abs(green[i]! - below);
        }
      }
      const block = row * columns + column;
      differences[block] = difference;
      if (Math.abs(r - g) <= NEUTRAL_SHARE * g && Math.abs(b - g) <= NEUTRAL_SHARE * g) neutral[block] = 1;
      all.push(difference);
    }
  }
  const usual = Uint16Array.from(all).sort()[all.length >> 1] ?? 0;
  const limit = Math.min(2 * BLOCK_PX * BLOCK_PX * SMOOTH_LEVELS, SMOOTH_SHARE * usual);
  const marked = neutral.map((isNeutral, block) => (isNeutral && differences[block]! <= limit ? 1 : 0));
  return { columns, rows, marked, inFrame: pixels };
}

interface Patch {
  /** Indices of blocks. */
  readonly members: readonly number[];
  readonly middle: readonly [column: number, row: number];
  /** Area over that of the rectangle with the same second moments, and that rectangle's aspect. */
  readonly fill: number;
  readonly aspect: number;
}

function connectedPatches({ columns, rows, marked }: Blocks): Patch[] {
  const patches: Patch[] = [];
  const open = marked.slice();
  for (let start = open.indexOf(1); start >= 0; start = open.indexOf(1, start + 1)) {
    open[start] = 0;
    const members = [start];
    for (let k = 0; k < members.length; k += 1) {
      const at = members[k]!;
      const column = at % columns;
      const neighbours = [
        column > 0 ? at - 1 : -1,
        column + 1 < columns ? at + 1 : -1,
        at - columns,
        at + columns < columns * rows ? at + columns : -1,
      ];
      for (const next of neighbours) {
        if (next < 0 || open[next] !== 1) continue;
        open[next] = 0;
        members.push(next);
      }
    }
    if (members.length >= FEWEST_BLOCKS) patches.push(patchOf(members, columns));
  }
  return patches;
}

/** A rectangle of sides a and b has variances a * a / 12 and b * b / 12 along its axes. */
function patchOf(members: readonly number[], columns: number): Patch {
  const n = members.length;
  let [sumX, sumY, xx, xy, yy] = [0, 0, 0, 0, 0];
  for (const at of members) {
    const [x, y] = [at % columns, Math.floor(at / columns)];
    sumX += x;
    sumY += y;
    xx += x * x;
    xy += x * y;
    yy += y * y;
  }
  const [middleX, middleY] = [sumX / n, sumY / n];
  // a block has extent of its own, which adds 1 / 12
  const [a, b, c] = [
    xx / n - middleX ** 2 + 1 / 12,
    xy / n - middleX * middleY,
    yy / n - middleY ** 2 + 1 / 12,
  ];
  const half = Math.sqrt(((a - c) / 2) ** 2 + b * b);
  const [large, small] = [(a + c) / 2 + half, (a + c) / 2 - half];
  return {
    members,
    middle: [middleX, middleY],
    fill: n / (12 * Math.sqrt(large * small)),
    aspect: Math.sqrt(large / small),
  };
}

function isCard({ members, fill, aspect }: Patch, inFrame: number): boolean {
  const share = members.length / inFrame;
  return share >= SMALLEST_SHARE && share <= LARGEST_SHARE && fill >= LEAST_FILL && aspect <= LONGEST_ASPECT;
}

/** In photo pixels. Blocks on the card's edge are not among its members, so it reaches a good block further. */
function outlineOf({ members }: Patch, columns: number, factor: number): Quadrilateral<'photo'> {
  const side = BLOCK_PX * factor;
  const corners = members.flatMap((block): PhotoPoint[] => {
    const [x, y] = [(block % columns) * side, Math.floor(block / columns) * side];
    return [
      photoPoint(x, y),
      photoPoint(x + side, y),
      photoPoint(x + side, y + side),
      photoPoint(x, y + side),
    ];
  });
  return smallestRectangle(corners, OUTLINE_MARGIN_BLOCKS * side);
}

/** Grows a rectangle from the patch's middle while its new edge lies wholly in the patch; in reduced pixels. */
function rectangleInside(
  { members, middle }: Patch,
  columns: number,
): [number, number, number, number] | null {
  const inside = new Set(members);
  let [left, top] = [Math.round(middle[0]), Math.round(middle[1])];
  let [right, bottom] = [left, top];
  const column = (x: number) => {
    for (let y = top; y <= bottom; y += 1) if (!inside.has(y * columns + x)) return false;
    return x >= 0 && x < columns;
  };
  const row = (y: number) => {
    for (let x = left; x <= right; x += 1) if (!inside.has(y * columns + x)) return false;
    return true;
  };
  if (!inside.has(top * columns + left)) return null;
  for (let grown = true; grown; ) {
    grown = false;
    if (column(left - 1)) [left, grown] = [left - 1, true];
    if (row(top - 1)) [top, grown] = [top - 1, true];
    if (column(right + 1)) [right, grown] = [right + 1, true];
    if (row(bottom + 1)) [bottom, grown] = [bottom + 1, true];
  }
  const [w, h] = [(right - left + 1) * BLOCK_PX, (bottom - top + 1) * BLOCK_PX];
  return [left * BLOCK_PX + MARGIN_PX, top * BLOCK_PX + MARGIN_PX, w - 2 * MARGIN_PX, h - 2 * MARGIN_PX];
}

function meanColour(
  { widthPx, red, green, blue }: ReducedPicture,
  [left, top, w, h]: readonly [number, number, number, number],
): [number, number, number] {
  const sums: [number, number, number] = [0, 0, 0];
  for (let y = top; y < top + h; y += 1) {
    for (let i = y * widthPx + left; i < y * widthPx + left + w; i += 1) {
      sums[0] += red[i]!;
      sums[1] += green[i]!;
      sums[2] += blue[i]!;
    }
  }
  return [sums[0] / (w * h), sums[1] / (w * h), sums[2] / (w * h)];
}
