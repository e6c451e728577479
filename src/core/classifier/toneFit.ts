import { blockSums, boxSums } from '../features/blockSums.ts';
import type { LabPlanes } from '../features/labRows.ts';
import { LOG_LIGHTNESS, RELATIVE_UNIT, relativeChroma } from '../features/logLightness.ts';
import { type Histogram, histogramMedian } from './histogram.ts';
import { radiusInCells } from './radiusInCells.ts';
import {
  CLOSED_CANOPY_SHARE,
  INDEPENDENT_TONE_CELLS,
  PATCH_SHARES,
  TONE_A_FACTOR,
  TONE_B_FACTOR,
  TONE_BLOCK_CELLS,
  TONE_BLOCK_MM,
  TONE_PRIOR,
  TONE_RADIUS_BLOCKS,
} from './startConstants.ts';
import { fitTones, type ToneFit } from './toneMixture.ts';

/** Tones are kept within this of 0, in plain units. */
const LARGEST_TONE = 8;

/** Bins of 1 / 64 in plain units; what lies further from the median than this many bins is put to the last. */
const BIN_UNITS = RELATIVE_UNIT / 64;
const BINS_EACH_SIDE = 80;

/** Only every so many-th cell of every so many-th row is asked for texture, which is a mean over the photo. */
const TEXTURE_STEP = 2;

export interface CanopyTones {
  /** Cells to a block's side, and blocks to a row. */
  readonly side: number;
  readonly widthBlocks: number;
  /**
   * Mean tone of the vegetation round each block, units of 1 / RELATIVE_UNIT, row-major; `NO_TONE` where no vegetation
   * is near.
   */
  readonly tone: Int32Array<ArrayBuffer>;
  /** Share of the vegetation that stands in closed canopy, 0..1. */
  readonly closedShare: number;
  /** Spread of log lightness of vegetation round its neighbourhood's: how much leaf texture shows. */
  readonly texture: number;
  /** Means over the vegetation: log lightness and relative a* of neighbourhoods. */
  readonly meanLogLightness: number;
  readonly meanGreenness: number;
  /** null where no canopy is closed. */
  readonly fit: ToneFit | null;
}

export const NO_TONE = -(2 ** 31);

/**
 * Light against dark grass: the tone of the vegetation in each neighbourhood, and the two kinds fitted to it.
 *
 * @param vegetation 1 where the cell shows vegetation, else 0
 */
export function fitCanopyTones(planes: LabPlanes, vegetation: Uint8Array<ArrayBuffer>): CanopyTones {
  const side = radiusInCells(planes.grid, TONE_BLOCK_MM, TONE_BLOCK_CELLS);
  const sums = blockSums(planes, vegetation, side);
  const { widthBlocks, heightBlocks, cells, groundWeight } = sums;
  const around = (plane: Int32Array): Int32Array =>
    boxSums(plane, widthBlocks, heightBlocks, TONE_RADIUS_BLOCKS);
  const measuredNear = around(sums.measured);
  const near = around(cells);
  const lightness = around(sums.lightness);
  const aStar = around(sums.aStar);
  const bStar = around(sums.bStar);

  const tone = new Int32Array(cells.length);
  const logLightness = new Int32Array(cells.length);
  const tones: Histogram = {
    first: BIN_UNITS / 2 / RELATIVE_UNIT - LARGEST_TONE,
    step: BIN_UNITS / RELATIVE_UNIT,
    weights: new Float64Array((2 * LARGEST_TONE * RELATIVE_UNIT) / BIN_UNITS),
  };
  let all = 0;
  let closed = 0;
  let closedCells = 0;
  let lightSum = 0;
  let greenSum = 0;
  for (let block = 0; block < cells.length; block += 1) {
    const count = near[block]!;
    if (count === 0) {
      tone[block] = NO_TONE;
      continue;
    }
    const l = Math.floor(lightness[block]! / count + 0.5);
    const log = LOG_LIGHTNESS[l]!;
    const a = relativeChroma(aStar[block]! / count, l);
    const value = log + TONE_A_FACTOR * a + TONE_B_FACTOR * relativeChroma(bStar[block]! / count, l);
    tone[block] = value;
    logLightness[block] = log;
    const weight = groundWeight[block]!;
    all += weight;
    lightSum += weight * log;
    greenSum += weight * a;
    if (weight === 0 || count <= CLOSED_CANOPY_SHARE * measuredNear[block]!) continue;
    closed += weight;
    closedCells += cells[block]!;
    const bin = Math.floor((value + LARGEST_TONE * RELATIVE_UNIT) / BIN_UNITS);
    tones.weights[Math.max(0, Math.min(tones.weights.length - 1, bin))]! += weight;
  }
  const ground = all === 0 ? 1 : all;
  return {
    side,
    widthBlocks,
    tone,
    closedShare: closed / ground,
    texture: textureOf(planes, vegetation, logLightness, side, widthBlocks),
    meanLogLightness: lightSum / ground / RELATIVE_UNIT,
    meanGreenness: greenSum / ground / RELATIVE_UNIT,
    fit:
      closedCells === 0
        ? null
        : fitTones(
            roundMedian(tones),
            PATCH_SHARES,
            TONE_PRIOR,
            Math.min(INDEPENDENT_TONE_CELLS, closedCells),
          ),
  };
}

/** Standard deviation of log lightness of vegetation round that of its neighbourhood, in plain units. */
function textureOf(
  { logLightness, grid }: LabPlanes,
  vegetation: Uint8Array,
  around: Int32Array,
  side: number,
  widthBlocks: number,
): number {
  const { widthCells, heightCells } = grid;
  let [count, sum, squares] = [0, 0, 0];
  for (let y = 0; y < heightCells; y += TEXTURE_STEP) {
    const firstBlock = Math.floor(y / side) * widthBlocks;
    for (let x = 0; x < widthCells; x += TEXTURE_STEP) {
      const cell = y * widthCells + x;
      if (vegetation[cell] === 0) continue;
      const off = logLightness[cell]! - around[firstBlock + Math.floor(x / side)]!;
      count += 1;
      sum += off;
      squares += off * off;
    }
  }
  if (count === 0) return 0;
  const mean = sum / count;
  return Math.sqrt(Math.max(0, squares / count - mean * mean)) / RELATIVE_UNIT;
}

/** The bins near the median; those further off are added to the outermost. */
function roundMedian({ first, step, weights }: Histogram): Histogram {
  const middle = histogramMedian({ first: 0, step: 1, weights });
  const near = new Float64Array(2 * BINS_EACH_SIDE + 1);
  for (let bin = 0; bin < weights.length; bin += 1) {
    const off = Math.max(-BINS_EACH_SIDE, Math.min(BINS_EACH_SIDE, bin - middle));
    near[off + BINS_EACH_SIDE]! += weights[bin]!;
  }
  return { first: first + (middle - BINS_EACH_SIDE) * step, step, weights: near };
}
