import { determinant, type Homography, homographyBetween } from './homography.ts';
import type { PixelBox } from './pixelBox.ts';
import { frameProblem, type PlotFrame, polygonAreaPx } from './plotFrame.ts';
import { type PhotoPoint, photoPoint, plotPoint, type Quadrilateral } from './points.ts';
import { forEachPolygonRun } from './polygonRuns.ts';

/** The pixels of a photo that are measured, and how much ground each of them stands for. */
export interface MeasuredArea {
  readonly widthPx: number;
  readonly heightPx: number;
  /** 1 where measured, else 0; row-major, index = y * widthPx + x. */
  readonly inside: Uint8Array<ArrayBuffer>;
  readonly measuredPixels: number;
  /** Smallest box round the measured pixels; empty (all 0) when there are none. */
  readonly bounds: PixelBox;
  /**
   * Photo pixels to ground, scaled so that its denominator is 1 at the frame's farthest corner and more elsewhere in
   * the frame; null without a frame: then every pixel counts the same.
   */
  readonly groundMap: Homography | null;
  /** Ground length of a pixel's side, mean over the frame; null where the frame's size is not known. */
  readonly millimetresPerPixel: number | null;
}

export interface MeasuredAreaOptions {
  readonly frame?: PlotFrame | null;
  /** Polygons that are left out. */
  readonly ignored?: readonly (readonly PhotoPoint[])[];
  /** The neutral reference, left out as well: left, top, width, height. */
  readonly neutral?: readonly [number, number, number, number] | null;
}

/** The weight of the pixel that stands for the most ground; weights are whole numbers so that sums are exact. */
export const LARGEST_GROUND_WEIGHT = 32768;

/**
 * Which pixels of a photo are measured.
 *
 * A pixel belongs to a polygon when its centre lies inside (even-odd rule).
 *
 * @throws RangeError if the frame is crossed or reaches out of the photo; ask `frameProblem` first
 */
export function measuredArea(
  widthPx: number,
  heightPx: number,
  options: MeasuredAreaOptions = {},
): MeasuredArea {
  const { frame = null, ignored = [], neutral = null } = options;
  const inside = new Uint8Array(widthPx * heightPx);
  if (frame) {
    const problem = frameProblem(frame.corners, widthPx, heightPx);
    if (problem) throw new RangeError(`the frame cannot be measured: ${problem.code}`);
    fillPolygon(inside, widthPx, heightPx, frame.corners, 1);
  } else {
    inside.fill(1);
  }
  for (const polygon of ignored) fillPolygon(inside, widthPx, heightPx, polygon, 0);
  if (neutral) {
    const [x, y, w, h] = neutral;
    const corners = [photoPoint(x, y), photoPoint(x + w, y), photoPoint(x + w, y + h), photoPoint(x, y + h)];
    fillPolygon(inside, widthPx, heightPx, corners, 0);
  }
  return {
    widthPx,
    heightPx,
    inside,
    ...extent(inside, widthPx, heightPx),
    groundMap: frame ? groundMap(frame) : null,
    millimetresPerPixel: frame ? meanScale(frame) : null,
  };
}

/** The same area without the pixels that the photo leaves transparent; itself when there are none. */
export function withoutTransparent(area: MeasuredArea, rgba: Uint8ClampedArray): MeasuredArea {
  const { widthPx, heightPx, bounds } = area;
  let inside: Uint8Array<ArrayBuffer> | undefined;
  for (let y = bounds.top; y < bounds.bottom; y += 1) {
    for (let i = y * widthPx + bounds.left; i < y * widthPx + bounds.right; i += 1) {
      if (rgba[4 * i + 3] === 255 || area.inside[i] === 0) continue;
      inside ??= area.inside.slice();
      inside[i] = 0;
    }
  }
  return inside ? { ...area, inside, ...extent(inside, widthPx, heightPx) } : area;
}

/**
 * Ground weights of one row of pixels, relative to the pixel that stands for the most ground.
 *
 * The weight is the Jacobian of the ground map at the pixel's centre, rounded to 1..LARGEST_GROUND_WEIGHT;
 * all weights are 1 where there is no frame.
 *
 * @param out one entry a column, filled from `from` to `to`
 * @param from first column wanted, `bounds.left` or more
 * @param to column after the last, `bounds.right` or less
 */
export function fillGroundWeights(
  area: MeasuredArea,
  y: number,
  out: Uint16Array | Int32Array,
  from: number = area.bounds.left,
  to: number = area.bounds.right,
): void {
  const { groundMap: map } = area;
  if (!map) {
    out.fill(1, from, to);
    return;
  }
  const [, , , , , , g, h, i] = map;
  const atRow = h * (y + 0.5) + i;
  for (let x = from; x < to; x += 1) {
    // |J| is proportional to 1 / d^3, and d is 1 where it is least
    const ratio = 1 / (g * (x + 0.5) + atRow);
    out[x] = (LARGEST_GROUND_WEIGHT * (ratio * ratio * ratio) + 0.5) | 0 || 1;
  }
}

/** The map to the ground, scaled so that its denominator is 1 at the frame's farthest corner. */
function groundMap(frame: PlotFrame): Homography {
  const [width, height] = frame.sizeMm ?? [1, 1];
  const ground: Quadrilateral<'plot'> = [
    plotPoint(0, 0),
    plotPoint(width, 0),
    plotPoint(width, height),
    plotPoint(0, height),
  ];
  const map = homographyBetween(frame.corners, ground);
  const [, , , , , , g, h, i] = map;
  const denominators = frame.corners.map(([x, y]) => g * x + h * y + i);
  const closest = denominators.reduce((least, d) => (Math.abs(d) < Math.abs(least) ? d : least));
  const scaled = map.map((entry) => entry / closest) as unknown as Homography;
  if (determinant(scaled) <= 0)
    throw new RangeError('the frame is seen from below: corners run the wrong way');
  return scaled;
}

function meanScale(frame: PlotFrame): number | null {
  if (!frame.sizeMm) return null;
  const [w, h] = frame.sizeMm;
  return Math.sqrt((w * h) / polygonAreaPx(frame.corners));
}

function fillPolygon(
  inside: Uint8Array,
  widthPx: number,
  heightPx: number,
  polygon: readonly PhotoPoint[],
  value: 0 | 1,
): void {
  forEachPolygonRun(polygon, widthPx, heightPx, (y, from, to) =>
    inside.fill(value, y * widthPx + from, y * widthPx + to),
  );
}

function extent(
  inside: Uint8Array,
  widthPx: number,
  heightPx: number,
): { bounds: PixelBox; measuredPixels: number } {
  let [left, top, right, bottom, measuredPixels] = [widthPx, heightPx, 0, 0, 0];
  for (let y = 0; y < heightPx; y += 1) {
    const row = inside.subarray(y * widthPx, (y + 1) * widthPx);
    const first = row.indexOf(1);
    if (first < 0) continue;
    const end = row.lastIndexOf(1) + 1;
    for (let x = first; x < end; x += 1) measuredPixels += row[x]!;
    if (first < left) left = first;
    if (end > right) right = end;
    if (y < top) top = y;
    bottom = y + 1;
  }
  if (measuredPixels === 0) return { bounds: { left: 0, top: 0, right: 0, bottom: 0 }, measuredPixels };
  return { bounds: { left, top, right, bottom }, measuredPixels };
}
