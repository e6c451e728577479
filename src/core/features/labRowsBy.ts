import { LAB_RESPONSE, LARGEST_RATIO } from '../colour/labResponseTable.ts';
import { LINEAR_FROM_BYTE, LINEAR_ONE } from '../colour/srgb.ts';
import { fillGroundWeights, type MeasuredArea } from '../geometry/measuredArea.ts';
import { layOut } from '../kernels/kernelMemory.ts';
import type { Kernels } from '../kernels/kernels.ts';
import type { LabPlanes, LabWork } from './labRows.ts';
import { A_SCALE, B_SCALE, LIGHTNESS_FOOT, LIGHTNESS_SCALE } from './labScales.ts';
import { LOG_LIGHTNESS } from './logLightness.ts';

/** Linear light of each byte in a field of 21 bits of a 64-bit number: red lowest, then green, then blue. */
const PACKED_LIGHT: BigUint64Array<ArrayBuffer> = BigUint64Array.from({ length: 3 * 256 }, (_, i) => {
  return BigInt(LINEAR_FROM_BYTE[i & 255]!) << BigInt(21 * (i >> 8));
});

/** Fills rows of cells from `firstRow` to before `endRow` by kernels. */
export function fillRowsBy(
  kernels: Kernels,
  planes: LabPlanes,
  { pixels, area, cellArea, tableSteps }: LabWork,
  firstRow: number,
  endRow: number,
): void {
  const { factor, widthCells, leftPx, topPx } = planes.grid;
  const rows = endRow - firstRow;
  const cells = rows * widthCells;
  const rowPx = widthCells * factor;
  const stripPixels = rowPx * rows * factor;
  const factors = [...tableSteps, LIGHTNESS_SCALE, LIGHTNESS_FOOT, A_SCALE, B_SCALE];
  const at = layOut(kernels, [
    8 * factors.length,
    PACKED_LIGHT.byteLength,
    LAB_RESPONSE.byteLength,
    LOG_LIGHTNESS.byteLength,
    4 * stripPixels,
    stripPixels,
    4 * cells,
    2 * cells,
    2 * cells,
    2 * cells,
    2 * cells,
    cells,
  ]);
  const [
    factorsAt,
    lightAt,
    responseAt,
    logTableAt,
    pixelsAt,
    insideAt,
    weightAt,
    lAt,
    aAt,
    bAt,
    logAt,
    countAt,
  ] = at;
  const { buffer } = kernels.memory;
  new Float64Array(buffer, factorsAt, factors.length).set(factors);
  new BigUint64Array(buffer, lightAt, PACKED_LIGHT.length).set(PACKED_LIGHT);
  new Int32Array(buffer, responseAt, LAB_RESPONSE.length).set(LAB_RESPONSE);
  new Int16Array(buffer, logTableAt, LOG_LIGHTNESS.length).set(LOG_LIGHTNESS);
  copyStrip(
    new Int32Array(buffer, pixelsAt, stripPixels),
    new Uint8Array(buffer, insideAt, stripPixels),
    pixels,
    area,
    { leftPx, topPx: topPx + firstRow * factor, rowPx },
  );
  const weights = new Int32Array(buffer, weightAt, cells);
  for (let row = 0; row < rows; row += 1) {
    const ofRow = weights.subarray(row * widthCells, (row + 1) * widthCells);
    fillGroundWeights(cellArea, firstRow + row, ofRow);
  }
  const lastStep = LARGEST_RATIO * LINEAR_ONE;
  kernels.labRows(
    pixelsAt,
    insideAt,
    widthCells,
    rows,
    factor,
    lightAt,
    responseAt,
    lastStep,
    logTableAt,
    factorsAt,
    lAt,
    aAt,
    bAt,
    logAt,
    countAt,
    weightAt,
  );
  const first = firstRow * widthCells;
  planes.lightness.set(new Int16Array(buffer, lAt, cells), first);
  planes.aStar.set(new Int16Array(buffer, aAt, cells), first);
  planes.bStar.set(new Int16Array(buffer, bAt, cells), first);
  planes.logLightness.set(new Int16Array(buffer, logAt, cells), first);
  planes.measured.set(new Uint8Array(buffer, countAt, cells), first);
  planes.groundWeight.set(weights, first);
}

/** Copies the measured box's part of a strip; whatever of the strip lies outside the box is not measured. */
function copyStrip(
  toPixels: Int32Array,
  toInside: Uint8Array,
  pixels: Int32Array,
  { bounds, inside, widthPx }: MeasuredArea,
  { leftPx, topPx, rowPx }: { leftPx: number; topPx: number; rowPx: number },
): void {
  toInside.fill(0);
  const bottom = Math.min(bounds.bottom, topPx + toInside.length / rowPx);
  for (let y = Math.max(bounds.top, topPx); y < bottom; y += 1) {
    const from = y * widthPx + bounds.left;
    const end = y * widthPx + bounds.right;
    const to = (y - topPx) * rowPx + bounds.left - leftPx;
    toPixels.set(pixels.subarray(from, end), to);
    toInside.set(inside.subarray(from, end), to);
  }
}
