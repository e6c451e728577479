import { analysisGrid } from '../features/analysisGrid.ts';
import { labPlanes } from '../features/labPlanes.ts';
import { LAB_UNIT } from '../features/logLightness.ts';
import { boxCounts, maskedBoxMeans } from '../features/maskedBoxMeans.ts';
import type { MeasuredArea } from '../geometry/measuredArea.ts';
import type { PixelBox } from '../geometry/pixelBox.ts';
import { clippedBox } from '../geometry/pixelBox.ts';
import { markedRuns, type PixelRuns } from '../geometry/pixelRuns.ts';
import type { PhotoPoint } from '../geometry/points.ts';
import type { RgbaRaster } from '../raster/rgbaRaster.ts';

/** How like the colour at one pixel every pixel round it is; made once, then asked for any tolerance. */
export interface LikenessField {
  readonly box: PixelBox;
  readonly seedX: number;
  readonly seedY: number;
  /**
   * Distance from the seed's colour in units of 1 / LAB_UNIT, row-major within the box; NOT_REACHABLE where nothing
   * is measured.
   */
  readonly distance: Uint16Array<ArrayBuffer>;
  /** Distance between the colours of a pixel and its right neighbour, same units; the last column holds 0. */
  readonly stepRight: Uint16Array<ArrayBuffer>;
  /** Distance between the colours of a pixel and the one below, same units; the last row holds 0. */
  readonly stepDown: Uint16Array<ArrayBuffer>;
}

const NOT_REACHABLE = 65535;

export interface LikenessOptions {
  /** Where growth ends at the latest; it costs time and memory in proportion. */
  readonly box: PixelBox;
  /** Colours are means over squares of side 2 r + 1, which quiets noise and bridges gaps between blades. @default 1 */
  readonly smoothRadiusPx?: number;
  readonly neutralGains?: readonly [number, number, number] | null;
}

/**
 * Prepares growth by colour likeness: CIELAB distances (the root of the summed squares of the differences in L*, a*
 * and b*, CIE 1976) from the colour at a pixel, within a box.
 *
 * @param seed the pixel (floor x, floor y)
 * @returns null where the seed is not measured or lies outside the box
 */
export async function likenessField(
  raster: RgbaRaster,
  area: MeasuredArea,
  seed: PhotoPoint,
  options: LikenessOptions,
): Promise<LikenessField | null> {
  const { smoothRadiusPx = 1, neutralGains = null } = options;
  const box = clippedBox(options.box, raster);
  const [seedX, seedY] = [Math.floor(seed[0]), Math.floor(seed[1])];
  if (seedX < box.left || seedX >= box.right || seedY < box.top || seedY >= box.bottom) return null;
  if (area.inside[seedY * raster.widthPx + seedX] !== 1) return null;

  const within = { ...area, bounds: box };
  const planes = await labPlanes(raster, within, analysisGrid(within, 1), { neutralGains });
  const { measured } = planes;
  const width = box.right - box.left;
  const height = box.bottom - box.top;
  const counts = boxCounts({ widthCells: width, heightCells: height, measured }, smoothRadiusPx);
  const [lightness, aStar, bStar] = [planes.lightness, planes.aStar, planes.bStar].map((plane) =>
    smoothRadiusPx === 0 ? plane : maskedBoxMeans(plane, counts, width, height, smoothRadiusPx),
  ) as [Int16Array, Int16Array, Int16Array];
  const between = (i: number, j: number): number => {
    const dL = lightness[i]! - lightness[j]!;
    const da = aStar[i]! - aStar[j]!;
    const db = bStar[i]! - bStar[j]!;
    return Math.min(NOT_REACHABLE - 1, Math.round(Math.sqrt(dL * dL + da * da + db * db)));
  };
  const seedIndex = (seedY - box.top) * width + seedX - box.left;
  const distance = new Uint16Array(width * height);
  const stepRight = new Uint16Array(width * height);
  const stepDown = new Uint16Array(width * height);
  for (let y = 0, i = 0; y < height; y += 1) {
    for (let x = 0; x < width; x += 1, i += 1) {
      distance[i] = measured[i] === 0 ? NOT_REACHABLE : between(i, seedIndex);
      if (x + 1 < width) stepRight[i] = between(i, i + 1);
      if (y + 1 < height) stepDown[i] = between(i, i + width);
    }
  }
  return { box, seedX, seedY, distance, stepRight, stepDown };
}

export interface GrowOptions {
  /** Largest distance from the seed's colour that still belongs, in CIELAB units. */
  readonly tolerance: number;
  /** Largest step from a pixel to its neighbour that growth takes, in CIELAB units: it stops at sharper edges. @default no limit */
  readonly largestStep?: number;
}

/**
 * The pixels that can be reached from the seed, over edges (not corners), through like colours and without a sharp step.
 *
 * Quick enough to follow a slider: only the threshold is new each time. Never empty: the seed is like itself.
 *
 * @throws RangeError if the tolerance or step is negative or not a number
 */
export function growByLikeness(field: LikenessField, options: GrowOptions): PixelRuns {
  const { tolerance, largestStep = Number.POSITIVE_INFINITY } = options;
  if (!(tolerance >= 0)) throw new RangeError(`the tolerance must be 0 or more, got ${tolerance}`);
  if (!(largestStep >= 0)) throw new RangeError(`the largest step must be 0 or more, got ${largestStep}`);
  const { box, seedX, seedY, distance, stepRight, stepDown } = field;
  const width = box.right - box.left;
  const height = box.bottom - box.top;
  const limit = Math.min(NOT_REACHABLE - 1, Math.floor(tolerance * LAB_UNIT));
  const step = Math.floor(Math.min(NOT_REACHABLE, largestStep * LAB_UNIT));
  const taken = new Uint8Array(width * height);
  const pending = new Int32Array(width * height);
  const seed = (seedY - box.top) * width + seedX - box.left;
  let [firstRow, lastRow] = [seedY, seedY];
  taken[seed] = 1;
  pending[0] = seed;
  for (let length = 1; length > 0; ) {
    length -= 1;
    const i = pending[length]!;
    const y = Math.floor(i / width);
    const x = i - y * width;
    if (y + box.top < firstRow) firstRow = y + box.top;
    if (y + box.top > lastRow) lastRow = y + box.top;
    if (x > 0 && taken[i - 1] === 0 && distance[i - 1]! <= limit && stepRight[i - 1]! <= step) {
      taken[i - 1] = 1;
      pending[length++] = i - 1;
    }
    if (x + 1 < width && taken[i + 1] === 0 && distance[i + 1]! <= limit && stepRight[i]! <= step) {
      taken[i + 1] = 1;
      pending[length++] = i + 1;
    }
    if (y > 0 && taken[i - width] === 0 && distance[i - width]! <= limit && stepDown[i - width]! <= step) {
      taken[i - width] = 1;
      pending[length++] = i - width;
    }
    if (y + 1 < height && taken[i + width] === 0 && distance[i + width]! <= limit && stepDown[i]! <= step) {
      taken[i + width] = 1;
      pending[length++] = i + width;
    }
  }
  return markedRuns(taken, box, firstRow, lastRow);
}
