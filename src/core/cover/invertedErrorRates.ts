import { clusterVariance } from '../point-grid/clusterVariance.ts';
import { studentTCritical } from '../statistics/distributions/studentT.ts';
import { twoSidedNormal } from '../statistics/proportions/proportionInterval.ts';
import { type Adjustment, type AdjustmentRefusal, type ReferencePhoto, sumOf } from './adjustment.ts';
import { addMatrices } from './errorMatrix.ts';
import { matchedBetaInterval } from './matchedBetaInterval.ts';
import { FEWEST_PHOTOS } from './postStratifiedCover.ts';

/** Pooled error rates that can be carried to other photos. */
export interface ErrorRates {
  readonly ok: true;
  /** P(mask class | observed class): rows class on the mask, columns class observed; columns add to 1. */
  readonly maskGivenObserved: readonly (readonly number[])[];
  readonly inverse: readonly (readonly number[])[];
  readonly photos: readonly Pick<ReferencePhoto, 'counts'>[];
  /** Points observed as each class. */
  readonly observed: readonly number[];
}

/** What the mask gives the photos whose mean cover is wanted. */
export interface MappedMean {
  /** Mean of the mask's shares, in class order; adds to 1. */
  readonly mappedFraction: readonly number[];
  /** How many photos the mean is over. */
  readonly photos: number;
}

/** Points observed as a class that its error rates need. Choice of this project. */
export const FEWEST_OBSERVED_POINTS = 10;

/**
 * Error rates of the mask, pooled over photos.
 *
 * Only P(mask class | observed class) may be pooled: it is how the mask treats weedy grass, wherever it
 * stands. P(observed | mask class) depends on how much of each class there is, so carried to photos with
 * other shares it drags them towards the pooled mean.
 */
export function pooledErrorRates(
  photos: readonly Pick<ReferencePhoto, 'counts'>[],
  classIds: readonly string[],
): ErrorRates | AdjustmentRefusal {
  const judged = photos.filter(({ counts }) => sumOf(counts.flat()) > 0);
  if (judged.length === 0) return { ok: false, code: 'no-points' };
  if (judged.length < FEWEST_PHOTOS) {
    return { ok: false, code: 'too-few-photos', photos: judged.length, fewest: FEWEST_PHOTOS };
  }
  const total = addMatrices(judged.map(({ counts }) => counts));
  const observed = classIds.map((_, j) => sumOf(total.map((row) => row[j]!)));
  const refuse = (code: 'class-never-observed' | 'class-never-mapped' | 'mask-does-not-separate') => ({
    when: (isSo: (i: number) => boolean): AdjustmentRefusal | null => {
      const classes = classIds.filter((_, i) => isSo(i));
      return classes.length > 0 ? { ok: false, code, classes } : null;
    },
  });
  const never = refuse('class-never-observed').when((j) => observed[j] === 0);
  if (never) return never;
  const unmapped = refuse('class-never-mapped').when((i) => sumOf(total[i]!) === 0);
  if (unmapped) return unmapped;
  const few = classIds.filter((_, j) => observed[j]! < FEWEST_OBSERVED_POINTS);
  if (few.length > 0) {
    return { ok: false, code: 'stratum-too-few-points', classes: few, fewest: FEWEST_OBSERVED_POINTS };
  }
  const rates = total.map((row) => row.map((count, j) => count / observed[j]!));
  const mixed = refuse('mask-does-not-separate').when((i) =>
    rates[i]!.some((rate, j) => j !== i && rate >= rates[i]![i]!),
  );
  if (mixed) return mixed;
  const inverse = inverseOf(rates);
  if (!inverse) return { ok: false, code: 'mask-does-not-separate', classes: classIds };
  return { ok: true, maskGivenObserved: rates, inverse, photos: judged, observed };
}

/**
 * Cover that the mask's shares stand for, given its pooled error rates: the solution of shares = P(mask |
 * observed) cover.
 *
 * Valid where the error rates are those of the reference photos: test that first. Variance by the delta
 * method with photos as clusters (the spread of whole photos' contributions), never less than for independent
 * points; where photos differ by more than points explain, that spread is added once more for the photos
 * wanted, which have rates of their own. Matched beta interval with Student's t for photos - 1. Solutions
 * outside 0..1 are cut and the rest brought to add to 1.
 *
 * @param confidence @default 0.95
 * @see Hay 1988, Int. J. Remote Sens. 9:1395 (direct and inverse estimators of area); variance by
 * linearisation
 */
export function invertErrorRates(rates: ErrorRates, mapped: MappedMean, confidence = 0.95): Adjustment {
  const { maskGivenObserved, inverse, photos, observed } = rates;
  const { mappedFraction } = mapped;
  const size = observed.length;
  const index = Array.from({ length: size }, (_, i) => i);
  const raw = index.map((j) => sumOf(index.map((i) => inverse[j]![i]! * mappedFraction[i]!)));
  const kept = raw.map((cover) => Math.max(0, cover));
  const all = sumOf(kept);
  const cover = kept.map((value) => value / all);
  // d cover = -inverse dM cover: what each photo adds to the error of M, times the cover it is weighted with
  const contributions = photos.map(({ counts }) => {
    const shift = index.map((i) =>
      sumOf(
        index.map((k) => {
          const own = sumOf(counts.map((row) => row[k]!));
          return (cover[k]! / observed[k]!) * (counts[i]![k]! - maskGivenObserved[i]![k]! * own);
        }),
      ),
    );
    return index.map((j) => -sumOf(index.map((i) => inverse[j]![i]! * shift[i]!)));
  });
  const widening = (studentTCritical(1 - confidence, photos.length - 1) / twoSidedNormal(confidence)) ** 2;
  const classes = index.map((j) => {
    const clustered = clusterVariance(
      contributions.map((shift) => shift[j]!),
      1,
    )!;
    const independent = independentVariance(rates, cover, j);
    // photos differ in their rates by more than points explain: so do the photos wanted from the pooled rates
    const ownRates = (Math.max(0, clustered - independent) * photos.length) / mapped.photos;
    const standardError = Math.sqrt(Math.max(clustered, independent) + ownRates);
    const coverFraction = cover[j]!;
    // a beta needs a mean inside 0..1: at the ends, half a standard error in
    const within = Math.min(1 - standardError / 2, Math.max(standardError / 2, coverFraction));
    const widened = Math.max((clustered + ownRates) * widening, independent);
    return { coverFraction, standardError, interval: matchedBetaInterval(within, widened, confidence) };
  });
  return {
    ok: true,
    target: 'treatment-mean',
    estimator: 'inverted-error-rates',
    variance: 'photos-as-clusters',
    confidence,
    points: sumOf(observed),
    photos: photos.length,
    classes,
    collapsed: [],
    isCut: raw.some((value) => value < 0 || value > 1),
  };
}

/**
 * Delta variance with every point independent, rates smoothed by Jeffreys' Dirichlet(1/2) prior so that none
 * counts as certain.
 */
function independentVariance(
  { maskGivenObserved, inverse, observed }: ErrorRates,
  cover: readonly number[],
  j: number,
): number {
  const size = observed.length;
  return sumOf(
    observed.map((points, k) => {
      const total = points + size / 2;
      const smooth = maskGivenObserved.map((row) => (row[k]! * points + 0.5) / total);
      const mean = sumOf(smooth.map((rate, i) => rate * inverse[j]![i]!));
      const square = sumOf(smooth.map((rate, i) => rate * inverse[j]![i]! ** 2));
      return (cover[k]! ** 2 * Math.max(0, square - mean * mean)) / (total + 1);
    }),
  );
}

/** Inverse of a small square matrix by Gauss-Jordan elimination with pivoting; null when it has none. */
function inverseOf(matrix: readonly (readonly number[])[]): number[][] | null {
  const size = matrix.length;
  const rows = matrix.map((row, i) => [...row, ...row.map((_, j) => Number(i === j))]);
  for (let column = 0; column < size; column += 1) {
    let pivot = column;
    for (let row = column + 1; row < size; row += 1) {
      if (Math.abs(rows[row]![column]!) > Math.abs(rows[pivot]![column]!)) pivot = row;
    }
    if (Math.abs(rows[pivot]![column]!) < 1e-9) return null;
    [rows[column], rows[pivot]] = [rows[pivot]!, rows[column]!];
    const lead = rows[column]![column]!;
    rows[column] = rows[column]!.map((value) => value / lead);
    for (let row = 0; row < size; row += 1) {
      const factor = rows[row]![column]!;
      if (row === column || factor === 0) continue;
      rows[row] = rows[row]!.map((value, k) => value - factor * rows[column]![k]!);
    }
  }
  return rows.map((row) => row.slice(size));
}
