import type { MeasuredArea } from '../geometry/measuredArea.ts';
import type { PhotoPoint } from '../geometry/points.ts';
import type { LabelMask } from '../raster/labelMask.ts';
import type { GapRule } from '../trial/trial.ts';

/**
 * The label of a mask at a point, small gaps treated as the trial says.
 *
 * Under the rule for small gaps a bare point counts as bare only if some circle of the rule's diameter fits
 * into bare ground round it (what lies outside the measured area may be bare); otherwise it takes the
 * commonest other label within that diameter. This is what an observer does who holds a circle of that size
 * to the turf.
 *
 * @param bareLabel label of bare ground
 * @returns 0 where the point is not measured
 * @throws RangeError when the rule needs a scale and the photo has none
 */
export function labelAtPoint(
  mask: LabelMask,
  area: MeasuredArea,
  [x, y]: PhotoPoint,
  rule: GapRule,
  bareLabel: number,
): number {
  const { widthPx, heightPx, labels } = mask;
  const [column, row] = [Math.floor(x), Math.floor(y)];
  if (column < 0 || row < 0 || column >= widthPx || row >= heightPx) return 0;
  if (area.inside[row * widthPx + column] === 0) return 0;
  const label = labels[row * widthPx + column]!;
  if (label !== bareLabel || rule.kind === 'every-pixel') return label;
  const { millimetresPerPixel } = area;
  if (millimetresPerPixel === null) {
    throw new RangeError('small gaps are measured in mm: the frame needs a size');
  }
  const radiusPx = rule.smallerThanMm / 2 / millimetresPerPixel;
  const reach = Math.ceil(2 * radiusPx);
  const others: { readonly dx: number; readonly dy: number }[] = [];
  const votes = new Map<number, number>();
  for (let dy = -reach; dy <= reach; dy += 1) {
    for (let dx = -reach; dx <= reach; dx += 1) {
      const [px, py] = [column + dx, row + dy];
      if (px < 0 || py < 0 || px >= widthPx || py >= heightPx) continue;
      const at = py * widthPx + px;
      if (area.inside[at] === 0 || labels[at] === bareLabel || Math.hypot(dx, dy) > reach) continue;
      others.push({ dx, dy });
      votes.set(labels[at]!, (votes.get(labels[at]!) ?? 0) + 1);
    }
  }
  // a circle through the point fits where no other label lies within the radius of its centre
  const within = Math.floor(radiusPx);
  for (let cy = -within; cy <= within; cy += 1) {
    for (let cx = -within; cx <= within; cx += 1) {
      if (Math.hypot(cx, cy) > radiusPx) continue;
      if (others.every(({ dx, dy }) => Math.hypot(dx - cx, dy - cy) >= radiusPx)) return bareLabel;
    }
  }
  let [best, most] = [bareLabel, 0];
  for (const [other, count] of votes) if (count > most) [best, most] = [other, count];
  return best;
}
