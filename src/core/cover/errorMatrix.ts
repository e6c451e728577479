import { type AdjustedCover, adjustCover } from './adjustedCover.ts';
import {
  type Concordance,
  type LimitsOfAgreement,
  limitsOfAgreement,
  linConcordance,
} from './methodAgreement.ts';

/** A point: what the mask says there, and what an observer saw. */
export interface CheckedPoint {
  /** Label of the mask, 1 .. number of classes. */
  readonly maskLabel: number;
  /** Null: the observer could not tell. */
  readonly classId: string | null;
}

/** Points by mask class and observed class. */
export interface ErrorMatrix {
  /** Rows class on the mask, columns class observed, in class order. */
  readonly counts: readonly (readonly number[])[];
  readonly points: number;
  readonly indeterminate: number;
}

/**
 * Counts points by what the mask says and what was observed.
 *
 * @throws RangeError on a label or class that is not among the classes; points that are not measured have to
 * be left out before
 */
export function errorMatrix(points: readonly CheckedPoint[], classIds: readonly string[]): ErrorMatrix {
  const counts = classIds.map(() => classIds.map(() => 0));
  let indeterminate = 0;
  for (const { maskLabel, classId } of points) {
    const row = counts[maskLabel - 1];
    if (!row) throw new RangeError(`label ${maskLabel} is no class: there are 1 to ${classIds.length}`);
    if (classId === null) {
      indeterminate += 1;
      continue;
    }
    const column = classIds.indexOf(classId);
    if (column < 0) throw new RangeError(`class "${classId}" is not among ${classIds.join(', ')}`);
    row[column]! += 1;
  }
  return { counts, points: points.length - indeterminate, indeterminate };
}

/** The same cells added up. */
export function addMatrices(matrices: readonly (readonly (readonly number[])[])[]): number[][] {
  const first = matrices[0];
  if (!first) throw new RangeError('1 error matrix or more is needed, got none');
  return first.map((row, i) => row.map((_, j) => matrices.reduce((sum, matrix) => sum + matrix[i]![j]!, 0)));
}

/**
 * How right the mask of one photo is: accuracies and kappa from its points.
 *
 * @param mappedFraction the mask's share of each class
 * @returns null without a point that was judged
 */
export function maskAccuracy(
  { counts, points }: ErrorMatrix,
  mappedFraction: readonly number[],
  classIds: readonly string[],
): AdjustedCover | null {
  return points > 0 ? adjustCover({ classes: classIds, mappedFraction, counts }) : null;
}

/** Cover of one class on one photo by both ways, 0..1. */
export interface CoverPair {
  readonly mask: number;
  readonly points: number;
}

/** How mask and points agree across photos on one class, in percentage points (mask less points). */
export interface MaskAgainstPoints {
  readonly photos: number;
  /** Null with fewer than 2 photos. */
  readonly limits: LimitsOfAgreement | null;
  /** Null with fewer than 2 photos, or where mask or points give every photo the same cover. */
  readonly concordance: Concordance | null;
  /**
   * Standard deviation that the points' own sampling error alone gives the differences, in percentage points;
   * null when no number of points is known. The mask is no worse than the points can show when the limits are
   * not wider than this explains.
   */
  readonly pointNoise: number | null;
}

/**
 * Limits of agreement and concordance of mask and points for one class.
 *
 * @param judged points judged on each photo, in the same order
 */
export function maskAgainstPoints(
  photos: readonly CoverPair[],
  judged: readonly number[] | null = null,
): MaskAgainstPoints {
  const mask = photos.map((photo) => 100 * photo.mask);
  const points = photos.map((photo) => 100 * photo.points);
  if (judged && judged.length !== photos.length) {
    throw new RangeError(`${photos.length} photos and the points of ${judged.length}`);
  }
  const noise = judged?.map((n, i) => (10_000 * photos[i]!.points * (1 - photos[i]!.points)) / n);
  return {
    photos: photos.length,
    limits: limitsOfAgreement(mask, points),
    concordance: linConcordance(mask, points),
    pointNoise:
      noise && noise.length > 0
        ? Math.sqrt(noise.reduce((sum, value) => sum + value, 0) / noise.length)
        : null,
  };
}
