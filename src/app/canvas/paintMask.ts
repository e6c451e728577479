import type { LabelMask } from '../../core/raster/labelMask.ts';
import type { CoverClass } from '../../core/trial/coverClass.ts';
import { classPattern, PATTERN_SIDE } from './classPatterns.ts';
import { parseColour } from './colours.ts';
import type { View } from './view.ts';

export interface MaskStyle {
  readonly classes: readonly CoverClass[];
  /** Ids of the classes that are drawn. */
  readonly shown: ReadonlySet<string>;
  /** Whether a class's pattern is drawn with its colour. */
  readonly patterns: boolean;
  /** Whether a dark line separates the classes. */
  readonly outlines: boolean;
  /** Whether the classes are filled; if not, outlines are light and dark, to be seen on any ground. @default true */
  readonly fills?: boolean;
  /** Only pixels whose label differs from the one here are drawn: same size as the mask. @default all */
  readonly unlike?: Uint8Array | null;
}

/**
 * Paints the part of a mask that a view shows, at the resolution of the surface.
 *
 * Working at the surface's resolution keeps the cost at one table look-up a surface pixel whatever the photo's
 * size, and keeps patterns and outlines equally fine at every zoom. Each surface pixel takes the label of the
 * photo pixel under its centre.
 *
 * @param view in device pixels of the surface
 * @param pixelRatio device pixels to a CSS pixel, for the size of the patterns
 * @param out RGBA bytes as one number a pixel, row-major, `width` a row; every entry is written
 */
export function paintMask(
  mask: LabelMask,
  view: View,
  style: MaskStyle,
  out: Uint32Array,
  width: number,
  pixelRatio = 1,
): void {
  const height = out.length / width;
  const colours = colourTable(style);
  const columns = samplePositions(width, view.origin[0], view.scale, mask.widthPx);
  const rows = samplePositions(height, view.origin[1], view.scale, mask.heightPx);
  const tileColumns = tilePositions(width, view.origin[0], pixelRatio);
  const tileRows = tilePositions(height, view.origin[1], pixelRatio);
  const tileArea = PATTERN_SIDE * PATTERN_SIDE;
  const { labels } = mask;
  const { fills = true, unlike = null } = style;
  for (let y = 0; y < height; y += 1) {
    const at = y * width;
    if (rows[y]! < 0) {
      out.fill(0, at, at + width);
      continue;
    }
    const row = rows[y]! * mask.widthPx;
    const rowAbove = y > 0 && rows[y - 1]! >= 0 ? rows[y - 1]! * mask.widthPx : row;
    const tileRow = tileRows[y]! * PATTERN_SIDE;
    let before = -1;
    for (let x = 0; x < width; x += 1) {
      const column = columns[x]!;
      if (column < 0) {
        out[at + x] = 0;
        continue;
      }
      const label = labels[row + column]!;
      const drawn = fills && (unlike === null || unlike[row + column] !== label);
      out[at + x] = drawn ? colours[label * tileArea + tileRow + tileColumns[x]!]! : 0;
      if (style.outlines) {
        const edgeLeft = before >= 0 && before !== label;
        const edgeAbove = labels[rowAbove + column] !== label;
        if (edgeLeft || edgeAbove) out[at + x] = OUTLINE;
        if (!fills && edgeLeft) out[at + x - 1] = LIGHT_OUTLINE;
        if (!fills && edgeAbove) out[at - width + x] = LIGHT_OUTLINE;
      }
      before = label;
    }
  }
}

const OUTLINE = rgba([12, 14, 13]);
const LIGHT_OUTLINE = rgba([255, 255, 255]);

/** One colour for each label and place in the pattern's tile; 0 where nothing is drawn. */
function colourTable({ classes, shown, patterns }: MaskStyle): Uint32Array {
  const tileArea = PATTERN_SIDE * PATTERN_SIDE;
  const table = new Uint32Array(256 * tileArea);
  classes.forEach((coverClass, index) => {
    if (!shown.has(coverClass.id)) return;
    const colour = parseColour(coverClass.colour);
    const plain = rgba(colour);
    const dark = rgba(colour.map((channel) => channel * 0.28));
    const pattern = classPattern(index);
    for (let i = 0; i < tileArea; i += 1) {
      table[(index + 1) * tileArea + i] = patterns && pattern[i] ? dark : plain;
    }
  });
  return table;
}

/** The photo column (or row) under each surface pixel's centre; -1 beside the photo. */
function samplePositions(count: number, origin: number, scale: number, limit: number): Int32Array {
  const positions = new Int32Array(count);
  for (let i = 0; i < count; i += 1) {
    const at = Math.floor((i + 0.5 - origin) / scale);
    positions[i] = at >= 0 && at < limit ? at : -1;
  }
  return positions;
}

/** The place in the pattern's tile of each surface pixel; the pattern travels with the photo when it is moved. */
function tilePositions(count: number, origin: number, pixelRatio: number): Uint8Array {
  const positions = new Uint8Array(count);
  const start = Math.round(origin);
  for (let i = 0; i < count; i += 1) {
    const at = Math.floor((i - start) / pixelRatio);
    positions[i] = ((at % PATTERN_SIDE) + PATTERN_SIDE) % PATTERN_SIDE;
  }
  return positions;
}

/** Bytes red, green, blue, 255 in memory order as one number; every platform a browser runs on is little-endian. */
function rgba([red, green, blue]: readonly number[]): number {
  return ((255 << 24) | (Math.round(blue!) << 16) | (Math.round(green!) << 8) | Math.round(red!)) >>> 0;
}
