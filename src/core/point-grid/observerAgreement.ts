import { cohenKappa, type Kappa } from '../cover/kappa.ts';
import { type LimitsOfAgreement, limitsOfAgreement } from '../cover/methodAgreement.ts';

/** What two said at one point, as indices into the classes; null: could not tell. */
export type VerdictPair = readonly [first: number | null, second: number | null];

/** Agreement on one class over photos. */
export interface ClassAgreement {
  /**
   * Mean over photos of the first's share less the second's, in percentage points: the bias. Null without a
   * photo that both judged.
   */
  readonly bias: number | null;
  /**
   * Standard deviation over photos of that difference, and limits of agreement; null with fewer than 2
   * photos.
   */
  readonly limits: LimitsOfAgreement | null;
}

/** How two observers, or an observer and the truth, agree on the same points. */
export interface ObserverAgreement {
  /** Points where both gave a verdict: rows the first, columns the second. */
  readonly table: readonly (readonly number[])[];
  readonly points: number;
  /** Points where at least one could not tell. */
  readonly indeterminate: number;
  /** Null without a point that both judged. */
  readonly kappa: Kappa | null;
  readonly classes: readonly ClassAgreement[];
}

/**
 * Compares two sets of verdicts point by point (kappa) and photo by photo (bias and spread of the cover).
 *
 * Against truth the truth comes second, so that a positive bias means the observer sees too much of the
 * class.
 *
 * @param photos the points of each photo
 * @throws RangeError if an index names no class
 */
export function observerAgreement(
  photos: readonly (readonly VerdictPair[])[],
  classCount: number,
): ObserverAgreement {
  const table = Array.from({ length: classCount }, () => new Array<number>(classCount).fill(0));
  let [points, indeterminate] = [0, 0];
  const shares: { first: number[]; second: number[] }[] = [];
  for (const pairs of photos) {
    const judged = pairs.filter((pair): pair is readonly [number, number] => !pair.includes(null));
    indeterminate += pairs.length - judged.length;
    points += judged.length;
    const first = new Array<number>(classCount).fill(0);
    const second = new Array<number>(classCount).fill(0);
    for (const [a, b] of judged) {
      if (!(a in first && b in second)) {
        throw new RangeError(`verdicts ${a} and ${b}: there are ${classCount} classes, from 0`);
      }
      table[a]![b]! += 1;
      first[a]! += 100 / judged.length;
      second[b]! += 100 / judged.length;
    }
    if (judged.length > 0) shares.push({ first, second });
  }
  const classes = table.map((_, index): ClassAgreement => {
    const [a, b] = [shares.map(({ first }) => first[index]!), shares.map(({ second }) => second[index]!)];
    const bias =
      a.length === 0 ? null : a.reduce((sum, value, photo) => sum + value - b[photo]!, 0) / a.length;
    return { bias, limits: limitsOfAgreement(a, b) };
  });
  return { table, points, indeterminate, kappa: points > 0 ? cohenKappa(table) : null, classes };
}
