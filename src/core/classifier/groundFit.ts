import type { LabPlanes } from '../features/labRows.ts';
import { RELATIVE_UNIT } from '../features/logLightness.ts';
import { neighbourhoodGreenness } from '../features/neighbourhoodGreenness.ts';
import { type Histogram, histogramMedian } from './histogram.ts';
import { radiusInCells } from './radiusInCells.ts';
import {
  GREENNESS_RADIUS_CELLS,
  GREENNESS_RADIUS_MM,
  GROUND_LIGHTNESS_FACTOR,
  GROUND_PRIOR,
  INDEPENDENT_CELLS,
  REDDEST_GROUND,
} from './startConstants.ts';
import { fitTwoKinds, type TwoKinds } from './twoKindMixture.ts';

/** Bins of 1 / 256 of relative chroma, from -1 to 1. */
const BIN_SHIFT = 4;
const BINS = (2 * RELATIVE_UNIT) >> BIN_SHIFT;

export interface GroundFit {
  /** Ground score of each measured cell in units of 1 / RELATIVE_UNIT: higher is less green. */
  readonly score: Int16Array<ArrayBuffer>;
  /** Low kind: vegetation; high kind: ground. In plain units. */
  readonly kinds: TwoKinds;
}

/** Parts vegetation from ground by relative a* of the neighbourhood and lightness of the cell, fitted to the photo. */
export function fitGround(planes: LabPlanes): GroundFit {
  const { logLightness, measured, groundWeight, grid } = planes;
  const radius = radiusInCells(grid, GREENNESS_RADIUS_MM, GREENNESS_RADIUS_CELLS);
  const greenness = neighbourhoodGreenness(planes, radius);

  const typical = medianLogLightness(planes);
  const reddest = REDDEST_GROUND * RELATIVE_UNIT;
  const score = new Int16Array(measured.length);
  const weights = new Float64Array(BINS);
  for (let cell = 0; cell < score.length; cell += 1) {
    if (measured[cell] === 0) continue;
    const lighter = logLightness[cell]! - typical;
    const value = Math.floor(Math.min(greenness[cell]!, reddest) - GROUND_LIGHTNESS_FACTOR * lighter + 0.5);
    score[cell] = value;
    const bin = (value + RELATIVE_UNIT) >> BIN_SHIFT;
    weights[bin < 0 ? 0 : bin >= BINS ? BINS - 1 : bin]! += groundWeight[cell]!;
  }
  const step = (1 << BIN_SHIFT) / RELATIVE_UNIT;
  const histogram = { first: -1 + step / 2, step, weights };
  const kinds = fitTwoKinds(
    histogram,
    { low: GROUND_PRIOR.vegetation, high: GROUND_PRIOR.ground },
    Math.min(INDEPENDENT_CELLS, measuredCells(measured)),
    GROUND_PRIOR.spreadCells,
  );
  return { score, kinds };
}

/** In units of 1 / RELATIVE_UNIT. */
function medianLogLightness({ logLightness, measured, groundWeight }: LabPlanes): number {
  const histogram: Histogram = { first: 8, step: 16, weights: new Float64Array(2048) };
  for (let cell = 0; cell < measured.length; cell += 1) {
    if (measured[cell] !== 0) histogram.weights[logLightness[cell]! >> 4]! += groundWeight[cell]!;
  }
  return histogramMedian(histogram);
}

function measuredCells(measured: Uint8Array): number {
  let cells = 0;
  for (let cell = 0; cell < measured.length; cell += 1) if (measured[cell] !== 0) cells += 1;
  return cells;
}
