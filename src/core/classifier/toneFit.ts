import type { LabPlanes } from '../features/labPlanes.ts';
import { logLightness, RELATIVE_UNIT, relativeChroma } from '../features/logLightness.ts';
import { boxCounts, maskedBoxMeans } from '../features/maskedBoxMeans.ts';
import { histogramMedian } from './histogram.ts';
import { radiusInCells } from './radiusInCells.ts';
import {
  CLOSED_CANOPY_SHARE,
  INDEPENDENT_TONE_CELLS,
  PATCH_SHARES,
  TONE_A_FACTOR,
  TONE_B_FACTOR,
  TONE_PRIOR,
  TONE_RADIUS_CELLS,
  TONE_RADIUS_MM,
} from './startConstants.ts';
import { fitTones, type ToneFit } from './toneMixture.ts';

/** Tones are kept within this of 0, in plain units. */
const LARGEST_TONE = 7.99;

/** Bins of 1 / 64; what lies further from the median than this many bins is put to the last. */
const BIN_UNITS = RELATIVE_UNIT / 64;
const BINS_EACH_SIDE = 80;

export interface CanopyTones {
  /** Mean tone of the vegetation round each cell, units of 1 / RELATIVE_UNIT; 0 where no vegetation is near. */
  readonly tone: Int16Array<ArrayBuffer>;
  /** Share of the vegetation that stands in closed canopy, 0..1. */
  readonly closedShare: number;
  /** Spread of log lightness of vegetation round its neighbourhood's: how much leaf texture shows. */
  readonly texture: number;
  /** Means over the vegetation: log lightness, relative a*. */
  readonly meanLogLightness: number;
  readonly meanGreenness: number;
  /** null where no canopy is closed. */
  readonly fit: ToneFit | null;
}

/**
 * Light against dark grass: the tone of the vegetation in each neighbourhood, and the two kinds fitted to it.
 *
 * @param vegetation 1 where the cell shows vegetation, else 0
 */
export function fitCanopyTones(planes: LabPlanes, vegetation: Uint8Array<ArrayBuffer>): CanopyTones {
  const { grid, measured, groundWeight, lightness } = planes;
  const { widthCells, heightCells } = grid;
  const cells = measured.length;
  const radius = radiusInCells(grid, TONE_RADIUS_MM, TONE_RADIUS_CELLS);
  const near = boxCounts({ widthCells, heightCells, measured: vegetation }, radius);
  const nearAll = boxCounts({ widthCells, heightCells, measured }, radius);
  const mean = (plane: Int16Array): Int16Array =>
    maskedBoxMeans(only(plane, vegetation), near, widthCells, heightCells, radius);
  const meanLightness = mean(lightness);
  const meanA = mean(planes.aStar);
  const meanB = mean(planes.bStar);

  const tone = new Int16Array(cells);
  const limit = LARGEST_TONE * RELATIVE_UNIT;
  let vegetationWeight = 0;
  let closedWeight = 0;
  let closedCells = 0;
  let [count, sum, squares, sumLight, sumGreen] = [0, 0, 0, 0, 0];
  for (let cell = 0; cell < cells; cell += 1) {
    if (near[cell] === 0) continue;
    const around = logLightness(meanLightness[cell]!);
    const value =
      around +
      TONE_A_FACTOR * relativeChroma(meanA[cell]!, meanLightness[cell]!) +
      TONE_B_FACTOR * relativeChroma(meanB[cell]!, meanLightness[cell]!);
    tone[cell] = Math.max(-limit, Math.min(limit, value));
    if (vegetation[cell] === 0) continue;
    const off = logLightness(lightness[cell]!) - around;
    count += 1;
    sum += off;
    squares += off * off;
    sumLight += around;
    sumGreen += relativeChroma(planes.aStar[cell]!, lightness[cell]!);
    vegetationWeight += groundWeight[cell]!;
    if (near[cell]! > CLOSED_CANOPY_SHARE * nearAll[cell]!) {
      closedWeight += groundWeight[cell]!;
      closedCells += 1;
    }
  }
  const perCell = 1 / Math.max(1, count);
  const variance = squares * perCell - sum * perCell * (sum * perCell);
  return {
    tone,
    closedShare: vegetationWeight === 0 ? 0 : closedWeight / vegetationWeight,
    texture: Math.sqrt(Math.max(0, variance)) / RELATIVE_UNIT,
    meanLogLightness: (sumLight * perCell) / RELATIVE_UNIT,
    meanGreenness: (sumGreen * perCell) / RELATIVE_UNIT,
    fit:
      closedCells === 0
        ? null
        : fitTones(
            toneHistogram(tone, vegetation, near, nearAll, groundWeight),
            PATCH_SHARES,
            TONE_PRIOR,
            Math.min(INDEPENDENT_TONE_CELLS, closedCells),
          ),
  };
}

/** Tones of closed canopy, in plain units, round their median. */
function toneHistogram(
  tone: Int16Array,
  vegetation: Uint8Array,
  near: Uint16Array,
  nearAll: Uint16Array,
  groundWeight: Int32Array,
): { first: number; step: number; weights: Float64Array } {
  const bins = Math.ceil((2 * 8 * RELATIVE_UNIT) / BIN_UNITS);
  const all = new Float64Array(bins);
  for (let cell = 0; cell < tone.length; cell += 1) {
    if (vegetation[cell] === 0 || near[cell]! <= CLOSED_CANOPY_SHARE * nearAll[cell]!) continue;
    all[Math.floor((tone[cell]! + 8 * RELATIVE_UNIT) / BIN_UNITS)]! += groundWeight[cell]!;
  }
  const middle = histogramMedian({ first: 0, step: 1, weights: all });
  const weights = new Float64Array(2 * BINS_EACH_SIDE + 1);
  for (let bin = 0; bin < bins; bin += 1) {
    const from = Math.max(-BINS_EACH_SIDE, Math.min(BINS_EACH_SIDE, bin - middle));
    weights[from + BINS_EACH_SIDE]! += all[bin]!;
  }
  const step = BIN_UNITS / RELATIVE_UNIT;
  return { first: (middle - BINS_EACH_SIDE + 0.5) * step - 8, step, weights };
}

/** The plane with 0 where the cell does not count. */
function only(plane: Int16Array, counts: Uint8Array): Int16Array<ArrayBuffer> {
  const out = new Int16Array(plane.length);
  for (let cell = 0; cell < plane.length; cell += 1) if (counts[cell] !== 0) out[cell] = plane[cell]!;
  return out;
}
