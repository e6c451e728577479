import type { FeaturePlanes } from './featurePlanes.ts';

/**
 * Every n-th cell of every n-th row, so that at most `mostCells` are left: for drawing the classes of a photo quickly or
 * small. Shares are not to be taken from it.
 */
export function coarserPlanes(features: FeaturePlanes, mostCells: number): FeaturePlanes {
  const { grid, planes, measured, groundWeight } = features;
  const { widthCells, heightCells, factor } = grid;
  const step = Math.ceil(Math.sqrt((widthCells * heightCells) / mostCells));
  if (step <= 1) return features;
  const columns = Math.ceil(widthCells / step);
  const rows = Math.ceil(heightCells / step);
  const picked = new Int32Array(columns * rows);
  const middleOf = (index: number, limit: number) => Math.min(index * step + (step >> 1), limit - 1);
  for (let row = 0; row < rows; row += 1) {
    const first = middleOf(row, heightCells) * widthCells;
    for (let column = 0; column < columns; column += 1) {
      picked[row * columns + column] = first + middleOf(column, widthCells);
    }
  }
  return {
    ...features,
    grid: {
      ...grid,
      factor: factor * step,
      widthCells: columns,
      heightCells: rows,
      millimetresPerCell: grid.millimetresPerCell === null ? null : grid.millimetresPerCell * step,
    },
    planes: planes.map((plane) => pick(plane, picked, new Int16Array(picked.length))),
    measured: pick(measured, picked, new Uint8Array(picked.length)),
    groundWeight: pick(groundWeight, picked, new Int32Array(picked.length)),
  };
}

/** A loop, since `from` with a function is ten times as slow on typed arrays. */
function pick<Plane extends Int16Array | Uint8Array | Int32Array>(
  plane: Plane,
  picked: Int32Array,
  out: Plane,
): Plane {
  for (let i = 0; i < picked.length; i += 1) out[i] = plane[picked[i]!]!;
  return out;
}
