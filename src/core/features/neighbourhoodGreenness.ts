import type { LabPlanes } from './labRows.ts';
import { LAB_UNIT, RELATIVE_UNIT } from './logLightness.ts';

const FOOT = 16 * LAB_UNIT;

/**
 * Relative a* of the mean colour of the square of side 2 radius + 1 round each cell, over measured cells: mean a* over
 * mean L* + 16, in units of 1 / RELATIVE_UNIT. The lower, the greener.
 *
 * One pass with running sums over both planes; the number of cells cancels, so no mean is ever formed.
 *
 * @returns 0 in cells that are not measured
 */
export function neighbourhoodGreenness(planes: LabPlanes, radius: number): Int16Array<ArrayBuffer> {
  const { grid, measured } = planes;
  const { widthCells: width, heightCells: height } = grid;
  const out = new Int16Array(width * height);
  // sums down each column of a*, and of L* + 16 where measured
  const columnA = new Int32Array(width);
  const columnL = new Int32Array(width);
  for (let y = -radius; y < height; y += 1) {
    if (y + radius < height) addRow(planes, y + radius, 1, columnA, columnL);
    if (y - radius - 1 >= 0) addRow(planes, y - radius - 1, -1, columnA, columnL);
    if (y >= 0) divideRow(columnA, columnL, radius, measured, out, y * width);
  }
  return out;
}

function addRow(
  { lightness, aStar, measured, grid }: LabPlanes,
  row: number,
  sign: 1 | -1,
  columnA: Int32Array,
  columnL: Int32Array,
): void {
  const start = row * grid.widthCells;
  for (let x = 0; x < columnA.length; x += 1) {
    if (measured[start + x] === 0) continue;
    columnA[x]! += sign * aStar[start + x]!;
    columnL[x]! += sign * (lightness[start + x]! + FOOT);
  }
}

function divideRow(
  columnA: Int32Array,
  columnL: Int32Array,
  radius: number,
  measured: Uint8Array,
  out: Int16Array,
  start: number,
): void {
  const width = columnA.length;
  let sumA = 0;
  let sumL = 0;
  for (let x = 0; x < Math.min(radius, width); x += 1) {
    sumA += columnA[x]!;
    sumL += columnL[x]!;
  }
  for (let x = 0; x < width; x += 1) {
    if (x + radius < width) {
      sumA += columnA[x + radius]!;
      sumL += columnL[x + radius]!;
    }
    if (measured[start + x] !== 0) out[start + x] = Math.floor((sumA * RELATIVE_UNIT) / sumL + 0.5);
    if (x >= radius) {
      sumA -= columnA[x - radius]!;
      sumL -= columnL[x - radius]!;
    }
  }
}
