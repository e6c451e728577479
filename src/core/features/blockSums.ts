import type { LabPlanes } from './labRows.ts';

/**
 * Sums of colour over blocks of cells, for neighbourhoods much wider than a cell: what varies slowly is computed once
 * a block instead of once a cell.
 *
 * Row-major, index = row * widthBlocks + column; block (row, column) holds the cells from (row * side, column * side).
 */
export interface BlockSums {
  /** Cells to a block's side. */
  readonly side: number;
  readonly widthBlocks: number;
  readonly heightBlocks: number;
  /** Measured cells, whether they count or not. */
  readonly measured: Int32Array<ArrayBuffer>;
  /** Ground of the cells that count. */
  readonly groundWeight: Float64Array<ArrayBuffer>;
  /** Cells that count, and the sums of their L*, a*, b* in units of 1 / LAB_UNIT. */
  readonly cells: Int32Array<ArrayBuffer>;
  readonly lightness: Int32Array<ArrayBuffer>;
  readonly aStar: Int32Array<ArrayBuffer>;
  readonly bStar: Int32Array<ArrayBuffer>;
}

/**
 * Sums over each block's cells that count.
 *
 * @param only 1 where a cell counts, else 0
 */
export function blockSums(planes: LabPlanes, only: Uint8Array, side: number): BlockSums {
  const { lightness, aStar, bStar, measured, groundWeight, grid } = planes;
  const { widthCells, heightCells } = grid;
  const widthBlocks = Math.ceil(widthCells / side);
  const heightBlocks = Math.ceil(heightCells / side);
  const size = widthBlocks * heightBlocks;
  const sums = {
    side,
    widthBlocks,
    heightBlocks,
    measured: new Int32Array(size),
    groundWeight: new Float64Array(size),
    cells: new Int32Array(size),
    lightness: new Int32Array(size),
    aStar: new Int32Array(size),
    bStar: new Int32Array(size),
  };
  for (let y = 0; y < heightCells; y += 1) {
    let block = Math.floor(y / side) * widthBlocks;
    for (let left = 0; left < widthCells; left += side) {
      const end = y * widthCells + Math.min(left + side, widthCells);
      let all = 0;
      let count = 0;
      let weight = 0;
      let l = 0;
      let a = 0;
      let b = 0;
      for (let cell = y * widthCells + left; cell < end; cell += 1) {
        if (measured[cell] !== 0) all += 1;
        if (only[cell] === 0) continue;
        count += 1;
        weight += groundWeight[cell]!;
        l += lightness[cell]!;
        a += aStar[cell]!;
        b += bStar[cell]!;
      }
      sums.measured[block]! += all;
      sums.groundWeight[block]! += weight;
      sums.cells[block]! += count;
      sums.lightness[block]! += l;
      sums.aStar[block]! += a;
      sums.bStar[block]! += b;
      block += 1;
    }
  }
  return sums;
}

/** Sums of a plane over the square of side 2 radius + 1 round each entry; the plane's edge cuts the square off. */
export function boxSums(
  plane: Int32Array,
  width: number,
  height: number,
  radius: number,
): Int32Array<ArrayBuffer> {
  const out = new Int32Array(width * height);
  const columns = new Int32Array(width);
  for (let y = -radius; y < height; y += 1) {
    const entering = (y + radius) * width;
    const leaving = (y - radius - 1) * width;
    if (y + radius < height) for (let x = 0; x < width; x += 1) columns[x]! += plane[entering + x]!;
    if (leaving >= 0) for (let x = 0; x < width; x += 1) columns[x]! -= plane[leaving + x]!;
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
