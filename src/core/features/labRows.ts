import { WHITE_D65, XYZ_FROM_LINEAR } from '../colour/cielab.ts';
import { LAB_RESPONSE, LARGEST_RATIO } from '../colour/labResponseTable.ts';
import { LINEAR_FROM_BYTE, LINEAR_ONE } from '../colour/srgb.ts';
import { fillGroundWeights, type MeasuredArea } from '../geometry/measuredArea.ts';
import type { RgbaRaster } from '../raster/rgbaRaster.ts';
import type { AnalysisGrid } from './analysisGrid.ts';
import { A_SCALE, B_SCALE, LIGHTNESS_FOOT, LIGHTNESS_SCALE } from './labScales.ts';
import { LOG_LIGHTNESS } from './logLightness.ts';

/**
 * Mean colour of each cell of an analysis grid, over its measured pixels only, averaged in linear light.
 *
 * Row-major, index = row * grid.widthCells + column. Cells without a measured pixel hold 0 throughout.
 */
export interface LabPlanes {
  readonly grid: AnalysisGrid;
  /** L*, a*, b* in units of 1 / LAB_UNIT. */
  readonly lightness: Int16Array<ArrayBuffer>;
  readonly aStar: Int16Array<ArrayBuffer>;
  readonly bStar: Int16Array<ArrayBuffer>;
  /** ln(L* + 16) in units of 1 / RELATIVE_UNIT. */
  readonly logLightness: Int16Array<ArrayBuffer>;
  /** Measured photo pixels in the cell, 0..factor squared. */
  readonly measured: Uint8Array<ArrayBuffer>;
  /** Ground the measured pixels stand for: their number times the weight at the cell's middle. */
  readonly groundWeight: Int32Array<ArrayBuffer>;
}

/** Planes of a grid that hold 0 throughout. */
export function emptyPlanes(grid: AnalysisGrid): LabPlanes {
  const cells = grid.widthCells * grid.heightCells;
  return {
    grid,
    lightness: new Int16Array(cells),
    aStar: new Int16Array(cells),
    bStar: new Int16Array(cells),
    logLightness: new Int16Array(cells),
    measured: new Uint8Array(cells),
    groundWeight: new Int32Array(cells),
  };
}

/** What rows are filled from. */
export interface LabWork {
  /** One number a pixel, red in its lowest byte. */
  readonly pixels: Int32Array;
  readonly area: MeasuredArea;
  /** The area in cells instead of photo pixels. */
  readonly cellArea: MeasuredArea;
  /** From linear red, green, blue to steps of the response table; row-major. */
  readonly tableSteps: ReturnType<typeof tableStepsFromLinear>;
}

export function labWork(
  raster: RgbaRaster,
  area: MeasuredArea,
  grid: AnalysisGrid,
  neutralGains: readonly [number, number, number] | null,
): LabWork {
  return {
    pixels: wholePixels(raster.data),
    area,
    cellArea: inCells(area, grid),
    tableSteps: tableStepsFromLinear(neutralGains ?? [1, 1, 1]),
  };
}

/** Fills rows of cells from `firstRow` to before `endRow` in plain code. */
export function fillRows(
  planes: LabPlanes,
  { pixels, area, cellArea, tableSteps }: LabWork,
  firstRow: number,
  endRow: number,
): void {
  const { factor, widthCells, leftPx, topPx } = planes.grid;
  const { lightness, aStar, bStar, logLightness, measured, groundWeight } = planes;
  const { inside, bounds, widthPx } = area;
  const red = new Int32Array(widthCells);
  const green = new Int32Array(widthCells);
  const blue = new Int32Array(widthCells);
  const counts = new Int32Array(widthCells);
  const weights = new Int32Array(widthCells);
  const [xr, xg, xb, yr, yg, yb, zr, zg, zb] = tableSteps;
  const lastStep = LARGEST_RATIO * LINEAR_ONE;

  for (let row = firstRow; row < endRow; row += 1) {
    const firstCell = row * widthCells;
    red.fill(0);
    green.fill(0);
    blue.fill(0);
    counts.fill(0);
    // sums of linear light over the cell's measured pixels
    const top = Math.max(topPx + row * factor, bounds.top);
    const bottom = Math.min(topPx + (row + 1) * factor, bounds.bottom);
    for (let y = top; y < bottom; y += 1) {
      const first = y * widthPx;
      const start = first + bounds.left;
      const end = first + bounds.right;
      addRow(pixels, inside, start, end, first + leftPx + factor, factor, red, green, blue, counts);
    }
    // means to CIELAB by table
    fillGroundWeights(cellArea, row, weights);
    for (let column = 0; column < widthCells; column += 1) {
      const cell = firstCell + column;
      const count = counts[column]!;
      if (count === 0) continue;
      measured[cell] = count;
      const share = 1 / count;
      const r = red[column]! * share;
      const g = green[column]! * share;
      const b = blue[column]! * share;
      const xStep = (xr * r + xg * g + xb * b + 0.5) | 0;
      const yStep = (yr * r + yg * g + yb * b + 0.5) | 0;
      const zStep = (zr * r + zg * g + zb * b + 0.5) | 0;
      const fx = LAB_RESPONSE[Math.min(xStep, lastStep)]!;
      const fy = LAB_RESPONSE[Math.min(yStep, lastStep)]!;
      const fz = LAB_RESPONSE[Math.min(zStep, lastStep)]!;
      const l = Math.floor(fy * LIGHTNESS_SCALE - LIGHTNESS_FOOT);
      lightness[cell] = l;
      logLightness[cell] = LOG_LIGHTNESS[l]!;
      aStar[cell] = Math.floor((fx - fy) * A_SCALE + 0.5);
      bStar[cell] = Math.floor((fy - fz) * B_SCALE + 0.5);
      groundWeight[cell] = count * weights[column]!;
    }
  }
}

/** Adds the linear light of one row's measured pixels to their cells; `cellEnd` is the end of the first cell. */
function addRow(
  pixels: Int32Array,
  inside: Uint8Array,
  start: number,
  end: number,
  cellEnd: number,
  factor: number,
  red: Int32Array,
  green: Int32Array,
  blue: Int32Array,
  counts: Int32Array,
): void {
  let pixel = start;
  let stop = Math.min(cellEnd, end);
  for (let column = 0; column < counts.length; column += 1) {
    let r = 0;
    let g = 0;
    let b = 0;
    let count = 0;
    for (; pixel < stop; pixel += 1) {
      if (inside[pixel] === 0) continue;
      const colour = pixels[pixel]!;
      r += LINEAR_FROM_BYTE[colour & 255]!;
      g += LINEAR_FROM_BYTE[(colour >> 8) & 255]!;
      b += LINEAR_FROM_BYTE[(colour >> 16) & 255]!;
      count += 1;
    }
    red[column]! += r;
    green[column]! += g;
    blue[column]! += b;
    counts[column]! += count;
    stop = Math.min(stop + factor, end);
  }
}

/** The raster's bytes as one number a pixel, red lowest: all platforms that run this are little-endian. */
function wholePixels(data: Uint8ClampedArray<ArrayBuffer>): Int32Array {
  const aligned = data.byteOffset % 4 === 0 ? data : data.slice();
  return new Int32Array(aligned.buffer, aligned.byteOffset, aligned.length >> 2);
}

/** The area seen in cells instead of photo pixels, so that ground weights are those at the middle of the cells. */
function inCells(
  area: MeasuredArea,
  { factor, leftPx, topPx, widthCells, heightCells }: AnalysisGrid,
): MeasuredArea {
  const bounds = { left: 0, top: 0, right: widthCells, bottom: heightCells };
  if (!area.groundMap) return { ...area, bounds };
  const [a, b, c, d, e, f, g, h, i] = area.groundMap;
  const along = (x: number, y: number, one: number): number => x * leftPx + y * topPx + one;
  return {
    ...area,
    bounds,
    groundMap: [
      a * factor,
      b * factor,
      along(a, b, c),
      d * factor,
      e * factor,
      along(d, e, f),
      g * factor,
      h * factor,
      along(g, h, i),
    ],
  };
}

/** Linear red, green, blue in units of 1 / LINEAR_ONE to steps of the response table, gains included; row-major. */
function tableStepsFromLinear(
  gains: readonly [number, number, number],
): [number, number, number, number, number, number, number, number, number] {
  const [x, y, z] = XYZ_FROM_LINEAR.map((row, i) =>
    row.map((factor, j) => (factor * gains[j]!) / WHITE_D65[i]!),
  ) as [number[], number[], number[]];
  return [x[0]!, x[1]!, x[2]!, y[0]!, y[1]!, y[2]!, z[0]!, z[1]!, z[2]!];
}
