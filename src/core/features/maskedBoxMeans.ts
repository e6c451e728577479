import { layOut } from '../kernels/kernelMemory.ts';
import { type Kernels, loadKernels } from '../kernels/kernels.ts';

/** A grid of cells, row-major, and which of them count. */
export interface CellRegion {
  readonly widthCells: number;
  readonly heightCells: number;
  /** 0 where the cell does not count; any other value where it does. */
  readonly measured: Uint8Array;
}

/**
 * How many cells that count lie in the square of side 2 radius + 1 round each cell.
 *
 * @param radius 0..127 cells
 */
export function boxCounts(region: CellRegion, radius: number): Uint16Array<ArrayBuffer> {
  if (!(radius >= 0 && radius <= 127)) throw new RangeError(`radius must be 0 to 127 cells, got ${radius}`);
  const kernels = loadKernels();
  return kernels ? boxCountsBy(kernels, region, radius) : plainBoxCounts(region, radius);
}

/** The same by kernels. */
export function boxCountsBy(
  kernels: Kernels,
  { widthCells, heightCells, measured }: CellRegion,
  radius: number,
): Uint16Array<ArrayBuffer> {
  const cells = widthCells * heightCells;
  const [columnsAt, measuredAt, outAt] = layOut(kernels, [4 * widthCells, cells, 2 * cells]);
  const { buffer } = kernels.memory;
  new Uint8Array(buffer, measuredAt, cells).set(measured);
  kernels.boxCounts(measuredAt, widthCells, heightCells, radius, columnsAt, outAt);
  return new Uint16Array(buffer, outAt, cells).slice();
}

/** The same in plain code. */
export function plainBoxCounts(
  { widthCells: width, heightCells: height, measured }: CellRegion,
  radius: number,
): Uint16Array<ArrayBuffer> {
  const out = new Uint16Array(width * height);
  const columns = new Int32Array(width);
  for (let y = -radius; y < height; y += 1) {
    const entering = (y + radius) * width;
    const leaving = (y - radius - 1) * width;
    if (y + radius < height)
      for (let x = 0; x < width; x += 1) if (measured[entering + x] !== 0) columns[x]! += 1;
    if (leaving >= 0) for (let x = 0; x < width; x += 1) if (measured[leaving + x] !== 0) columns[x]! -= 1;
    if (y < 0) continue;
    let sum = 0;
    for (let x = 0; x < Math.min(radius, width); x += 1) sum += columns[x]!;
    for (let x = 0; x < width; x += 1) {
      if (x + radius < width) sum += columns[x + radius]!;
      out[y * width + x] = sum;
      if (x >= radius) sum -= columns[x - radius]!;
    }
  }
  return out;
}

/**
 * Mean of a plane over the square round each cell, counting only cells that count, rounded to whole numbers.
 *
 * What lies outside the measured area (a white frame, a grey card) has no part in it. Running sums: the cost does
 * not depend on the radius.
 *
 * @param counts from `boxCounts` with the same radius
 * @param only 1 where a cell counts, else 0; needed where the plane is not 0 in cells that do not
 * @returns 0 where no cell of the square counts
 */
export function maskedBoxMeans(
  plane: Int16Array | Uint8Array | Int32Array,
  counts: Uint16Array,
  widthCells: number,
  heightCells: number,
  radius: number,
  only: Uint8Array | null = null,
): Int16Array<ArrayBuffer> {
  const out = new Int16Array(widthCells * heightCells);
  const shares = new Float64Array((2 * radius + 1) ** 2 + 1);
  for (let count = 1; count < shares.length; count += 1) shares[count] = 1 / count;
  const columns = new Int32Array(widthCells);
  for (let y = -radius; y < heightCells; y += 1) {
    const entering = (y + radius) * widthCells;
    const leaving = (y - radius - 1) * widthCells;
    if (y + radius < heightCells) {
      for (let x = 0; x < widthCells; x += 1) {
        columns[x]! += only === null ? plane[entering + x]! : plane[entering + x]! * only[entering + x]!;
      }
    }
    if (leaving >= 0) {
      for (let x = 0; x < widthCells; x += 1) {
        columns[x]! -= only === null ? plane[leaving + x]! : plane[leaving + x]! * only[leaving + x]!;
      }
    }
    if (y < 0) continue;
    const row = y * widthCells;
    let sum = 0;
    for (let x = 0; x < Math.min(radius, widthCells); x += 1) sum += columns[x]!;
    for (let x = 0; x < widthCells; x += 1) {
      if (x + radius < widthCells) sum += columns[x + radius]!;
      out[row + x] = Math.floor(sum * shares[counts[row + x]!]! + 0.5);
      if (x >= radius) sum -= columns[x - radius]!;
    }
  }
  return out;
}
