import type { MeasuredArea } from '../../core/geometry/measuredArea.ts';
import type { MaskAtPoints } from '../../core/point-grid/countedPhoto.ts';
import { labelAtPoint } from '../../core/point-grid/labelAtPoint.ts';
import { callsUnderOtherRule } from '../../core/point-grid/pointCall.ts';
import type { PointPlace } from '../../core/point-grid/pointPlaces.ts';
import type { LabelMask } from '../../core/raster/labelMask.ts';
import type { GapRule } from '../../core/trial/trial.ts';
import type { Figure } from './session.ts';

const EVERY_PIXEL: GapRule = { kind: 'every-pixel' };

/**
 * What an automatic mask says at points, in the classes of the trial.
 *
 * @returns null where the mask was made under another rule for small gaps than the trial has now, or has a class that the
 * trial no longer has: it then measures something else than the points
 */
export function maskAtPoints(
  mask: LabelMask,
  { settings, cover }: Figure,
  area: MeasuredArea,
  places: readonly PointPlace[],
  classIds: readonly string[],
  rule: GapRule,
): MaskAtPoints | null {
  if (callsUnderOtherRule([{ gapRule: settings.gapRule ?? EVERY_PIXEL }], rule).length > 0) return null;
  const mappedFraction = sharesOf(cover, classIds);
  if (!mappedFraction) return null;
  const labels = new Map<number, number>();
  for (const { id, at } of places) {
    const label = labelAtPoint(mask, area, at);
    if (label > 0) labels.set(id, classIds.indexOf(settings.classes[label - 1]!.id) + 1);
  }
  return { labels, mappedFraction };
}

/** Shares in class order, adding to 1; null where the cover has a class that is not among them. */
export function sharesOf(
  cover: readonly { readonly classId: string; readonly coverFraction: number }[],
  classIds: readonly string[],
): number[] | null {
  if (cover.some(({ classId }) => !classIds.includes(classId))) return null;
  const shares = classIds.map((id) => cover.find(({ classId }) => classId === id)?.coverFraction ?? 0);
  const sum = shares.reduce((total, share) => total + share, 0);
  return sum > 0 ? shares.map((share) => share / sum) : null;
}
