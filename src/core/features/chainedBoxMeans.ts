import { layOut } from '../kernels/kernelMemory.ts';
import { type Kernels, loadKernels } from '../kernels/kernels.ts';
import { type CellRegion, maskedBoxMeans } from './maskedBoxMeans.ts';

/** One smoothing: the square's radius in cells, and its counts from `boxCounts`. */
export interface BoxStep {
  readonly radius: number;
  readonly counts: Uint16Array;
}

/**
 * Box means of a plane, box means of those, and so on: one plane a step, rounded to whole numbers.
 *
 * @param plane 0 in cells that do not count
 * @returns 0 in cells that do not count
 */
export function chainedBoxMeans(
  plane: Int16Array,
  region: CellRegion,
  steps: readonly BoxStep[],
): Int16Array<ArrayBuffer>[] {
  const kernels = loadKernels();
  return kernels
    ? chainedBoxMeansBy(kernels, plane, region, steps)
    : plainChainedBoxMeans(plane, region, steps);
}

/** The same in plain code. */
export function plainChainedBoxMeans(
  plane: Int16Array,
  { widthCells, heightCells, measured }: CellRegion,
  steps: readonly BoxStep[],
): Int16Array<ArrayBuffer>[] {
  let from = plane;
  return steps.map(({ radius, counts }) => {
    const means = maskedBoxMeans(from, counts, widthCells, heightCells, radius);
    for (let cell = 0; cell < means.length; cell += 1) if (measured[cell] === 0) means[cell] = 0;
    from = means;
    return means;
  });
}

/** The same by kernels. */
export function chainedBoxMeansBy(
  kernels: Kernels,
  plane: Int16Array,
  { widthCells, heightCells, measured }: CellRegion,
  steps: readonly BoxStep[],
): Int16Array<ArrayBuffer>[] {
  const cells = plane.length;
  const [columnsAt, measuredAt, countsAt, firstAt, secondAt] = layOut(kernels, [
    8 * widthCells,
    cells,
    2 * cells,
    2 * cells,
    2 * cells,
  ]);
  const { buffer } = kernels.memory;
  new Uint8Array(buffer, measuredAt, cells).set(measured);
  new Int16Array(buffer, firstAt, cells).set(plane);
  const counts = new Uint16Array(buffer, countsAt, cells);
  let [from, to] = [firstAt, secondAt];
  return steps.map((step, i) => {
    if (step.counts !== steps[i - 1]?.counts) counts.set(step.counts);
    kernels.boxMeans(from, countsAt, measuredAt, widthCells, heightCells, step.radius, columnsAt, to);
    const means = new Int16Array(buffer, to, cells).slice();
    [from, to] = [to, from];
    return means;
  });
}
