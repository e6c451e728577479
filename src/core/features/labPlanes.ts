import type { BetweenStrips } from '../classifier/classification.ts';
import type { MeasuredArea } from '../geometry/measuredArea.ts';
import { loadKernels } from '../kernels/kernels.ts';
import type { RgbaRaster } from '../raster/rgbaRaster.ts';
import type { AnalysisGrid } from './analysisGrid.ts';
import { emptyPlanes, fillRows, type LabPlanes, labWork } from './labRows.ts';
import { fillRowsBy } from './labRowsBy.ts';

export interface LabPlanesOptions {
  /** Factors for linear red, green and blue that make the neutral reference grey. */
  readonly neutralGains?: readonly [number, number, number] | null;
  /** Photo rows between two calls of `betweenStrips`, rounded up to whole cells. @default 256 */
  readonly stripRows?: number;
  readonly betweenStrips?: BetweenStrips | undefined;
}

/** Averages the photo over the cells of a grid and gives CIELAB under D65. Values do not depend on `stripRows`. */
export async function labPlanes(
  raster: RgbaRaster,
  area: MeasuredArea,
  grid: AnalysisGrid,
  options: LabPlanesOptions = {},
): Promise<LabPlanes> {
  const { neutralGains = null, stripRows = 256, betweenStrips } = options;
  const planes = emptyPlanes(grid);
  const kernels = loadKernels();
  const work = labWork(raster, area, grid, neutralGains);
  const rowsAtOnce = Math.max(1, Math.ceil(stripRows / grid.factor));
  for (let row = 0; row < grid.heightCells; row += rowsAtOnce) {
    await betweenStrips?.(row / grid.heightCells);
    const end = Math.min(row + rowsAtOnce, grid.heightCells);
    if (kernels) fillRowsBy(kernels, planes, work, row, end);
    else fillRows(planes, work, row, end);
  }
  return planes;
}
