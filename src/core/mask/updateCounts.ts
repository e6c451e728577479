import type { ClassCounts } from '../cover/classCounts.ts';
import { fillGroundWeights, type MeasuredArea } from '../geometry/measuredArea.ts';
import type { LabelMask } from '../raster/labelMask.ts';
import { effectiveLabel } from './correctionLayer.ts';
import { type CorrectionPatch, forEachChangedRow } from './correctionPatch.ts';

/**
 * Class counts after a patch, from the counts before it: equal to a recount of the whole mask, at the cost of the
 * changed pixels only.
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
  const { bounds, inside, widthPx } = area;
  const weights = new Int32Array(widthPx);
  forEachChangedRow(patch, (y, from, to, before, after) => {
    if (y < bounds.top || y >= bounds.bottom) return;
    const first = Math.max(from, bounds.left);
    const end = Math.min(to, bounds.right);
    if (first >= end) return;
    fillGroundWeights(area, y, weights, first, end);
    for (let x = first; x < end; x += 1) {
      const pixel = y * widthPx + x;
      if (inside[pixel] === 0) continue;
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
