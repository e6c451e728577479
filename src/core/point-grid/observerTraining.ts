import { type LimitsOfAgreement, limitsOfAgreement } from '../cover/methodAgreement.ts';
import { type ObserverAgreement, observerAgreement, type VerdictPair } from './observerAgreement.ts';

/** What an observer made of one rendered picture. Classes by their place in class order. */
export interface TrainingPicture {
  readonly picture: string;
  /** Cover as rated at a glance, before any point was called. */
  readonly rated: readonly number[];
  /** For each point the class called; null: could not tell. */
  readonly called: readonly (number | null)[];
  /** For each point what it truly shows. */
  readonly truth: readonly number[];
  /** Cover as rendered. */
  readonly trueCover: readonly number[];
}

/** How far a glance was off, for one class over pictures, in percentage points (rated less true). */
export interface RatingError {
  /** Null without a picture. */
  readonly bias: number | null;
  /** Null with fewer than 2 pictures. */
  readonly limits: LimitsOfAgreement | null;
}

/** How an observer did. */
export interface TrainingResult {
  /** Calls against the truth at the same points. */
  readonly calls: ObserverAgreement;
  /** In class order. */
  readonly ratings: readonly RatingError[];
}

/** Compares an observer's calls and ratings with the truth. */
export function trainingResult(pictures: readonly TrainingPicture[], classCount: number): TrainingResult {
  const pairs = pictures.map(({ called, truth }) =>
    called.map((call, point): VerdictPair => [call, truth[point]!]),
  );
  const ratings = Array.from({ length: classCount }, (_, index): RatingError => {
    const rated = pictures.map((picture) => 100 * picture.rated[index]!);
    const truth = pictures.map(({ trueCover }) => 100 * trueCover[index]!);
    const bias = rated.reduce((sum, value, i) => sum + value - truth[i]!, 0) / rated.length;
    return { bias: rated.length > 0 ? bias : null, limits: limitsOfAgreement(rated, truth) };
  });
  return { calls: observerAgreement(pairs, classCount), ratings };
}

/** Compares two observers on the same points; pictures that one of them did not see are left out. */
export function betweenObservers(
  first: readonly TrainingPicture[],
  second: readonly TrainingPicture[],
  classCount: number,
): ObserverAgreement {
  const pairs = first.flatMap(({ picture, called }) => {
    const other = second.find((one) => one.picture === picture);
    return other?.called.length === called.length
      ? [called.map((call, point): VerdictPair => [call, other.called[point]!])]
      : [];
  });
  return observerAgreement(pairs, classCount);
}
