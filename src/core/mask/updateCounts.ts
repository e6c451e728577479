import type { ClassCounts } from '../cover/classCounts.ts';
import { fillGroundWeights, type MeasuredArea } from '../geometry/measuredArea.ts';
import type { LabelMask } from '../raster/labelMask.ts';
import { effectiveLabel, TILE_SIDE } from './correctionLayer.ts';
import { type CorrectionPatch, forEachChangedRow } from './correctionPatch.ts';

/**
 * Class counts after a patch, from the counts before it: equal to a recount of the whole mask, at the cost of the
 * changed pixels and the box round them.
 *
 * @param automatic the mask beneath the corrections
 * @param area the one the counts were made with
 */
export function updateCounts(
  counts: ClassCounts,
  patch: CorrectionPatch,
  automatic: LabelMask,
  area: MeasuredArea,
): ClassCounts {
  const pixels = counts.pixels.slice();
  const ground = counts.ground.slice();
  const weightOf = groundWeightsIn(patch, area);
  forEachChangedRow(patch, (y, from, to, before, after) => {
    const weights = weightOf(y);
    for (let x = from; x < to; x += 1) {
      const pixel = y * area.widthPx + x;
      if (area.inside[pixel] === 0) continue;
      const computed = automatic.labels[pixel]!;
      const was = effectiveLabel(computed, before);
      const is = effectiveLabel(computed, after);
      if (was === is) continue;
      const weight = weights[x]!;
      pixels[was]! -= 1;
      pixels[is]! += 1;
      ground[was]! -= weight;
      ground[is]! += weight;
    }
  });
  return { pixels, ground };
}

/** Rows of ground weights over the patch's box; a patch goes tile row by tile row, so one tile row of them is kept. */
function groundWeightsIn({ dirtyBox }: CorrectionPatch, area: MeasuredArea): (y: number) => Int32Array {
  const from = Math.max(dirtyBox.left, area.bounds.left);
  const to = Math.min(dirtyBox.right, area.bounds.right);
  const rows = Array.from({ length: TILE_SIDE }, () => ({ y: -1, weights: new Int32Array(Math.max(0, to)) }));
  return (y) => {
    const row = rows[y % TILE_SIDE]!;
    if (row.y !== y) {
      row.y = y;
      if (from < to) fillGroundWeights(area, y, row.weights, from, to);
    }
    return row.weights;
  };
}
