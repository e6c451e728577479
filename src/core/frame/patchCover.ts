import { homographyBetween } from '../geometry/homography.ts';
import { fillGroundWeights, type MeasuredArea } from '../geometry/measuredArea.ts';
import { plotPoint, type Quadrilateral } from '../geometry/points.ts';
import type { LabelMask } from '../raster/labelMask.ts';

/** How many patches a frame is divided into. */
export interface PatchGrid {
  readonly columns: number;
  readonly rows: number;
}

/**
 * Cover by class in equal patches of ground inside a frame, the same patches on every date whatever the camera's place.
 *
 * Row-major from the frame's top left, patch = row * columns + column.
 */
export interface PatchCover extends PatchGrid {
  readonly classCount: number;
  /** Ground weight of each class, index = patch * classCount + label - 1; only ratios mean something. */
  readonly ground: Float64Array;
  /** Measured pixels in each patch. */
  readonly pixels: Uint32Array;
}

/** Patches this wide are many times wider than a frame laid back by hand lies off; common practice here, no source. */
const PATCH_MM = 50;
/** Patches along a side of a frame whose size is not known. */
const PATCHES_ALONG = 10;

/** Patches for a frame: as near to 50 mm as whole numbers of them go, all of one size. */
export function patchGridOf(sizeMm: readonly [widthMm: number, heightMm: number] | null): PatchGrid {
  if (!sizeMm) return { columns: PATCHES_ALONG, rows: PATCHES_ALONG };
  const along = (lengthMm: number) => Math.max(1, Math.round(lengthMm / PATCH_MM));
  return { columns: along(sizeMm[0]), rows: along(sizeMm[1]) };
}

const UNIT_SQUARE: Quadrilateral<'plot'> = [
  plotPoint(0, 0),
  plotPoint(1, 0),
  plotPoint(1, 1),
  plotPoint(0, 1),
];

/**
 * Sums a mask's ground by patch and class.
 *
 * A pixel belongs to the patch its centre lies in. Labels of 0 are left out.
 *
 * @param area the measured area the mask was made for
 * @param corners inner corners of the frame
 * @param classCount labels are 1..classCount
 * @throws RangeError if the grid is not of whole numbers from 1, or the mask holds a label above classCount
 */
export function patchCover(
  mask: LabelMask,
  area: MeasuredArea,
  corners: Quadrilateral<'photo'>,
  classCount: number,
  { columns, rows }: PatchGrid,
): PatchCover {
  if (!(Number.isInteger(columns) && Number.isInteger(rows) && columns >= 1 && rows >= 1)) {
    throw new RangeError(`patches need whole numbers of columns and rows from 1, got ${columns} x ${rows}`);
  }
  const ground = new Float64Array(columns * rows * classCount);
  const pixels = new Uint32Array(columns * rows);
  const [a, b, c, d, e, f, g, h, i] = homographyBetween(corners, UNIT_SQUARE);
  const { bounds, widthPx, inside } = area;
  const weights = new Int32Array(widthPx);
  for (let y = bounds.top; y < bounds.bottom; y += 1) {
    fillGroundWeights(area, y, weights);
    const cy = y + 0.5;
    for (let x = bounds.left; x < bounds.right; x += 1) {
      const label = mask.labels[y * widthPx + x]!;
      if (inside[y * widthPx + x] === 0 || label === 0) continue;
      if (label > classCount)
        throw new RangeError(`the mask holds label ${label}: there are ${classCount} classes`);
      const cx = x + 0.5;
      const scale = g * cx + h * cy + i;
      const column = Math.floor((columns * (a * cx + b * cy + c)) / scale);
      const row = Math.floor((rows * (d * cx + e * cy + f)) / scale);
      // centres on the last edge by rounding stay in the last patch
      const patch =
        Math.min(rows - 1, Math.max(0, row)) * columns + Math.min(columns - 1, Math.max(0, column));
      ground[patch * classCount + label - 1]! += weights[x]!;
      pixels[patch]! += 1;
    }
  }
  return { columns, rows, classCount, ground, pixels };
}
