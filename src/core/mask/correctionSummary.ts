import type { ClassCounts } from '../cover/classCounts.ts';
import { fillGroundWeights, type MeasuredArea } from '../geometry/measuredArea.ts';
import type { CorrectedMask } from './correctedMask.ts';
import { FIRST_WAITING, TILE_SIDE, tilesAcross } from './correctionLayer.ts';

/** What was changed into what. */
export interface ChangedPair {
  /** The automatic label. */
  readonly from: number;
  /** The label given by hand. */
  readonly to: number;
  readonly pixels: number;
  /** Share of measured ground, 0..1. */
  readonly groundFraction: number;
}

/** What hand corrections did to one photo. */
export interface CorrectionSummary {
  /** By `from`, then `to`; only pairs that occur. */
  readonly pairs: readonly ChangedPair[];
  /** Share of measured ground whose class was changed by hand, 0..1. */
  readonly changedFraction: number;
  /** Share of measured ground on which the hand said what the computer had said, 0..1. */
  readonly confirmedFraction: number;
  /** Corrected less automatic cover a class in class order, -1..1; adds up to 0 but for rounding. */
  readonly netChange: readonly number[];
}

/**
 * Adds up the corrections of a photo, weighted by ground. Corrections that have no effect (on what is not measured)
 * are left out.
 *
 * @param automaticCounts counts of the automatic mask in the same area
 * @returns null where nothing is measured
 */
export function correctionSummary(
  mask: CorrectedMask,
  area: MeasuredArea,
  automaticCounts: ClassCounts,
): CorrectionSummary | null {
  const { automatic, corrections, classCount } = mask;
  const { widthPx, bounds } = area;
  let measuredGround = 0;
  for (const sum of automaticCounts.ground) measuredGround += sum;
  if (measuredGround === 0) return null;

  // index = automatic label * (classCount + 1) + label given by hand
  const side = classCount + 1;
  const pixels = new Float64Array(side * side);
  const ground = new Float64Array(side * side);
  const weights = new Int32Array(widthPx);
  const across = tilesAcross(corrections);
  for (const [index, tile] of corrections.tiles) {
    const tileLeft = (index % across) * TILE_SIDE;
    const tileTop = Math.floor(index / across) * TILE_SIDE;
    const left = Math.max(tileLeft, bounds.left);
    const right = Math.min(tileLeft + TILE_SIDE, bounds.right);
    const bottom = Math.min(tileTop + TILE_SIDE, bounds.bottom);
    if (left >= right) continue;
    for (let y = Math.max(tileTop, bounds.top); y < bottom; y += 1) {
      fillGroundWeights(area, y, weights, left, right);
      for (let x = left; x < right; x += 1) {
        const correction = tile[(y - tileTop) * TILE_SIDE + (x - tileLeft)]!;
        const computed = automatic.labels[y * widthPx + x]!;
        if (correction === 0 || correction >= FIRST_WAITING) continue;
        if (computed === 0 || area.inside[y * widthPx + x] === 0) continue;
        pixels[computed * side + correction]! += 1;
        ground[computed * side + correction]! += weights[x]!;
      }
    }
  }

  const pairs: ChangedPair[] = [];
  const netGround = new Float64Array(side);
  let confirmed = 0;
  let changed = 0;
  for (let from = 1; from < side; from += 1) {
    for (let to = 1; to < side; to += 1) {
      const at = from * side + to;
      if (pixels[at] === 0) continue;
      if (from === to) {
        confirmed += ground[at]!;
        continue;
      }
      changed += ground[at]!;
      netGround[from]! -= ground[at]!;
      netGround[to]! += ground[at]!;
      pairs.push({ from, to, pixels: pixels[at]!, groundFraction: ground[at]! / measuredGround });
    }
  }
  return {
    pairs,
    changedFraction: changed / measuredGround,
    confirmedFraction: confirmed / measuredGround,
    netChange: [...netGround.subarray(1)].map((sum) => sum / measuredGround),
  };
}
