import { layOut } from '../kernels/kernelMemory.ts';
import { type Kernels, loadKernels } from '../kernels/kernels.ts';

/** Values are brought to this many steps fewer before they are squared, so that sums of squares stay exact. */
const SHIFT = 3;

/**
 * Standard deviation of a plane over the square round each cell, counting only cells that count, in the plane's units.
 *
 * Running sums of whole numbers: the cost does not depend on the radius, and no cell depends on where a strip began.
 *
 * @param plane 0..32767; must be 0 where a cell does not count
 * @param counts from `boxCounts` with the same radius
 * @returns 0 where no cell of the square counts
 */
export function localSpread(
  plane: Int16Array,
  counts: Uint16Array,
  widthCells: number,
  heightCells: number,
  radius: number,
): Int16Array<ArrayBuffer> {
  const kernels = loadKernels();
  return kernels
    ? localSpreadBy(kernels, plane, counts, widthCells, heightCells, radius)
    : plainLocalSpread(plane, counts, widthCells, heightCells, radius);
}

/** The same by kernels. */
export function localSpreadBy(
  kernels: Kernels,
  plane: Int16Array,
  counts: Uint16Array,
  widthCells: number,
  heightCells: number,
  radius: number,
): Int16Array<ArrayBuffer> {
  const cells = widthCells * heightCells;
  const [scratchAt, planeAt, countsAt, outAt] = layOut(kernels, [
    24 * widthCells,
    2 * cells,
    2 * cells,
    2 * cells,
  ]);
  const { buffer } = kernels.memory;
  new Int16Array(buffer, planeAt, cells).set(plane);
  new Uint16Array(buffer, countsAt, cells).set(counts);
  kernels.localSpread(planeAt, countsAt, widthCells, heightCells, radius, scratchAt, outAt);
  return new Int16Array(buffer, outAt, cells).slice();
}

/** The same in plain code. */
export function plainLocalSpread(
  plane: Int16Array,
  counts: Uint16Array,
  widthCells: number,
  heightCells: number,
  radius: number,
): Int16Array<ArrayBuffer> {
  const out = new Int16Array(widthCells * heightCells);
  const sums = new Int32Array(widthCells);
  // sums of squares pass 2^31 for large radii; doubles hold them exactly
  const squares = new Float64Array(widthCells);
  const unit = 1 << SHIFT;
  for (let y = -radius; y < heightCells; y += 1) {
    const entering = (y + radius) * widthCells;
    const leaving = (y - radius - 1) * widthCells;
    if (y + radius < heightCells) {
      for (let x = 0; x < widthCells; x += 1) {
        const value = plane[entering + x]! >> SHIFT;
        sums[x]! += value;
        squares[x]! += value * value;
      }
    }
    if (leaving >= 0) {
      for (let x = 0; x < widthCells; x += 1) {
        const value = plane[leaving + x]! >> SHIFT;
        sums[x]! -= value;
        squares[x]! -= value * value;
      }
    }
    if (y < 0) continue;
    const row = y * widthCells;
    let sum = 0;
    let square = 0;
    for (let x = 0; x < Math.min(radius, widthCells); x += 1) {
      sum += sums[x]!;
      square += squares[x]!;
    }
    for (let x = 0; x < widthCells; x += 1) {
      if (x + radius < widthCells) {
        sum += sums[x + radius]!;
        square += squares[x + radius]!;
      }
      const count = counts[row + x]!;
      if (count > 0) {
        const mean = sum / count;
        out[row + x] = Math.floor(Math.sqrt(Math.max(0, square / count - mean * mean)) * unit + 0.5);
      }
      if (x >= radius) {
        sum -= sums[x - radius]!;
        square -= squares[x - radius]!;
      }
    }
  }
  return out;
}
