import { analysisGridFor } from '../features/analysisGrid.ts';
import { LAB_UNIT, labPlanes } from '../features/labPlanes.ts';
import { boxCounts, maskedBoxMeans } from '../features/maskedBoxMeans.ts';
import { otsuThreshold } from '../features/otsuThreshold.ts';
import { labelMaskFromCells } from '../mask/labelMaskFromCells.ts';
import type { CoverClass } from '../trial/coverClass.ts';
import type { Classification, ClassifyOptions, ClassifyRequest, CoverFlag } from './classification.ts';

/** Name and version of the start model, kept with every figure it gives. */
export const START_MODEL_ID = 'start-1';

/**
 * Cover without any painting: greenness parts vegetation from ground, then lightness and yellowness of the
 * neighbourhood part dark from light grass.
 */
export async function classifyWithStartModel(
  request: ClassifyRequest,
  options: ClassifyOptions = {},
): Promise<Classification> {
  const { raster, area, classes, neutralGains } = request;
  const grid = analysisGridFor(area);
  const planes = await labPlanes(raster, area, grid, { neutralGains, ...options });
  const { widthCells, heightCells } = grid;
  const cells = widthCells * heightCells;
  const flags: CoverFlag[] = [];

  // vegetation: a* below a threshold found by Otsu's rule, kept within what grass and soil look like
  const greenness = new Float64Array(64);
  for (let cell = 0; cell < cells; cell += 1) {
    if (planes.measured[cell] === 0) continue;
    const level = Math.round(-planes.aStar[cell]! / LAB_UNIT) + 20;
    greenness[Math.min(63, Math.max(0, level))]! += planes.groundWeight[cell]!;
  }
  const threshold = Math.min(8, Math.max(4, (otsuThreshold(greenness) ?? 24) - 20)) * -LAB_UNIT;
  const vegetation = new Uint8Array(cells);
  for (let cell = 0; cell < cells; cell += 1) {
    if (planes.measured[cell] !== 0 && planes.aStar[cell]! <= threshold) vegetation[cell] = 1;
  }

  // light grass: lightness and b* of the vegetation round the cell
  const radius = 4;
  const region = { widthCells, heightCells, measured: vegetation };
  const counts = boxCounts(region, radius);
  const tone = new Int16Array(cells);
  for (let cell = 0; cell < cells; cell += 1) {
    if (vegetation[cell] === 1) tone[cell] = planes.lightness[cell]! + planes.bStar[cell]!;
  }
  const meanTone = maskedBoxMeans(tone, counts, widthCells, heightCells, radius);
  const tones = new Float64Array(256);
  for (let cell = 0; cell < cells; cell += 1) {
    if (vegetation[cell] === 1) tones[Math.min(255, Math.max(0, meanTone[cell]! >> 7))]! += 1;
  }
  const split = otsuThreshold(tones);
  const lightFrom = split === null ? Number.POSITIVE_INFINITY : split * LAB_UNIT;
  if (split === null) flags.push('no-second-kind');

  const dark = labelOfRole(classes, 'dark-grass');
  const light = labelOfRole(classes, 'light-grass');
  const ground = labelOfRole(classes, 'ground');
  const cellLabels = new Uint8Array(cells);
  for (let cell = 0; cell < cells; cell += 1) {
    if (planes.measured[cell] === 0) continue;
    cellLabels[cell] = vegetation[cell] === 0 ? ground : meanTone[cell]! >= lightFrom ? light : dark;
  }
  const mask = labelMaskFromCells(cellLabels, grid, area);
  return { mask, coverFraction: cellShares(cellLabels, planes.groundWeight, classes.length), flags };
}

/** Label of the first class with a role. @throws RangeError if the run has no such class */
function labelOfRole(classes: readonly CoverClass[], role: CoverClass['startRole']): number {
  const index = classes.findIndex(({ startRole }) => startRole === role);
  if (index < 0) throw new RangeError(`the start model needs a class with the role ${role}, got none`);
  return index + 1;
}

/** Share of the ground of each label 1..classCount. */
function cellShares(cellLabels: Uint8Array, groundWeight: Int32Array, classCount: number): number[] {
  const sums = new Float64Array(classCount + 1);
  for (let cell = 0; cell < cellLabels.length; cell += 1) sums[cellLabels[cell]!]! += groundWeight[cell]!;
  const total = sums.reduce((sum, value) => sum + value, 0);
  return Array.from(sums.subarray(1), (sum) => sum / total);
}
