import { clusterVariance } from '../point-grid/clusterVariance.ts';
import { studentTCritical } from '../statistics/distributions/studentT.ts';
import { twoSidedNormal } from '../statistics/proportions/proportionInterval.ts';
import { adjustCover } from './adjustedCover.ts';
import { type Adjustment, type AdjustmentRefusal, type ReferencePhoto, sumOf } from './adjustment.ts';
import { addMatrices } from './errorMatrix.ts';
import { matchedBetaInterval } from './matchedBetaInterval.ts';

/** A mask class with fewer points has no stratum of its own. Choice of this project. */
export const FEWEST_STRATUM_POINTS = 10;
/**
 * Mask classes up to this share of the ground that have too few points are counted with the largest class;
 * larger ones are refused, since a count that misses them is short of points as a whole. Choice of this
 * project.
 */
export const LARGEST_COLLAPSED_SHARE = 0.05;
/** Photos that a variance between photos needs. */
export const FEWEST_PHOTOS = 2;

interface Strata {
  readonly mapped: readonly number[];
  readonly matrices: readonly (readonly (readonly number[])[])[];
  readonly collapsed: readonly string[];
}

/**
 * Adjusted cover of one photo from its own points, by the post-stratified estimator.
 *
 * The points have to be drawn over the ground (grid, simple random), not more densely in some mask classes.
 * Estimate and standard error as in `adjustCover`. Interval: a beta distribution with mean and variance of
 * the sum of the strata's shares, each with Jeffreys' prior, so that a stratum in which no error was seen
 * still counts as uncertain.
 *
 * @param mappedFraction the mask's share of each class, adds to 1
 * @param confidence @default 0.95
 * @see Olofsson et al. 2014, Remote Sens. Environ. 148:42; collapsed strata: Cochran 1977, Sampling
 * Techniques, section 5A.12
 */
export function adjustPhotoCover(
  counts: readonly (readonly number[])[],
  mappedFraction: readonly number[],
  classIds: readonly string[],
  confidence = 0.95,
): Adjustment {
  const strata = collapseStrata([counts], mappedFraction, classIds);
  if ('ok' in strata) return strata;
  const { mapped, collapsed } = strata;
  const matrix = strata.matrices[0]!;
  const adjusted = adjustCover({ classes: classIds, mappedFraction: mapped, counts: matrix }, confidence);
  const classes = classIds.map((_, j) => {
    const { mean, variance } = jeffreysMoments(matrix, mapped, j);
    return {
      coverFraction: adjusted.adjustedFraction[j]!,
      standardError: adjusted.standardError[j]!,
      interval: matchedBetaInterval(mean, variance, confidence),
    };
  });
  return {
    ok: true,
    target: 'frame',
    estimator: 'post-stratified',
    variance: 'independent-points',
    confidence,
    points: sumOf(matrix.flat()),
    photos: 1,
    classes,
    collapsed,
    isCut: false,
  };
}

/**
 * Adjusted mean cover of one treatment from the points of several of its photos, by the post-stratified
 * estimator.
 *
 * Needs no equal error rates between treatments, since mask and points are of the same treatment; needs
 * reference photos drawn at random within it. Variance by linearisation with photos as clusters and Student's
 * t, never less than for independent points.
 *
 * @param mappedFraction mean of the mask's shares over all photos of the treatment, adds to 1
 * @param confidence @default 0.95
 * @see Särndal, Swensson & Wretman 1992, Model Assisted Survey Sampling, chapter 7 (post-stratification;
 * residuals by cluster)
 */
export function adjustTreatmentCover(
  photos: readonly Pick<ReferencePhoto, 'counts'>[],
  mappedFraction: readonly number[],
  classIds: readonly string[],
  confidence = 0.95,
): Adjustment {
  const judged = photos.map(({ counts }) => counts).filter((counts) => sumOf(counts.flat()) > 0);
  if (judged.length === 0) return { ok: false, code: 'no-points' };
  if (judged.length < FEWEST_PHOTOS) {
    return { ok: false, code: 'too-few-photos', photos: judged.length, fewest: FEWEST_PHOTOS };
  }
  const strata = collapseStrata(judged, mappedFraction, classIds);
  if ('ok' in strata) return strata;
  const { mapped, matrices, collapsed } = strata;
  const total = addMatrices(matrices);
  const rowPoints = total.map(sumOf);
  const widening = (studentTCritical(1 - confidence, judged.length - 1) / twoSidedNormal(confidence)) ** 2;
  const classes = classIds.map((_, j) => {
    const rate = (i: number): number => (rowPoints[i]! > 0 ? total[i]![j]! / rowPoints[i]! : 0);
    const coverFraction = sumOf(mapped.map((share, i) => share * rate(i)));
    const residuals = matrices.map((counts) =>
      sumOf(
        counts.map((row, i) =>
          rowPoints[i]! > 0 ? (mapped[i]! / rowPoints[i]!) * (row[j]! - rate(i) * sumOf(row)) : 0,
        ),
      ),
    );
    const independent = jeffreysMoments(total, mapped, j);
    const clustered = clusterVariance(residuals, 1)!;
    const interval = matchedBetaInterval(
      independent.mean,
      Math.max(clustered * widening, independent.variance),
      confidence,
    );
    const standardError = Math.sqrt(Math.max(clustered, independent.variance));
    return { coverFraction, standardError, interval };
  });
  return {
    ok: true,
    target: 'treatment-mean',
    estimator: 'post-stratified',
    variance: 'photos-as-clusters',
    confidence,
    points: sumOf(rowPoints),
    photos: judged.length,
    classes,
    collapsed,
    isCut: false,
  };
}

/** Counts small strata with the largest one, or says why the strata cannot be used. */
function collapseStrata(
  matrices: readonly (readonly (readonly number[])[])[],
  mappedFraction: readonly number[],
  classIds: readonly string[],
): Strata | AdjustmentRefusal {
  const points = addMatrices(matrices).map(sumOf);
  if (sumOf(points) === 0) return { ok: false, code: 'no-points' };
  const largest = mappedFraction.indexOf(Math.max(...mappedFraction));
  // what the mask gives no ground needs no stratum, whatever points it had elsewhere
  const small = classIds.map((_, i) => mappedFraction[i]! > 0 && points[i]! < FEWEST_STRATUM_POINTS);
  const refused = classIds.filter(
    (_, i) => small[i] && (i === largest || mappedFraction[i]! > LARGEST_COLLAPSED_SHARE),
  );
  if (refused.length > 0) {
    return { ok: false, code: 'stratum-too-few-points', classes: refused, fewest: FEWEST_STRATUM_POINTS };
  }
  const moved = (i: number): boolean => small[i]! && i !== largest;
  const mapped = mappedFraction.map((share, i) =>
    i === largest ? share + sumOf(mappedFraction.filter((_, k) => moved(k))) : moved(i) ? 0 : share,
  );
  const collapsedMatrices = matrices.map((matrix) =>
    matrix.map((row, i) =>
      row.map((count, j) =>
        i === largest
          ? count + sumOf(matrix.filter((_, k) => moved(k)).map((other) => other[j]!))
          : moved(i)
            ? 0
            : count,
      ),
    ),
  );
  return { mapped, matrices: collapsedMatrices, collapsed: classIds.filter((_, i) => moved(i)) };
}

/**
 * Mean and variance of a class's cover when each stratum's share has its posterior under Jeffreys' beta(1/2,
 * 1/2) prior.
 */
function jeffreysMoments(
  matrix: readonly (readonly number[])[],
  mapped: readonly number[],
  j: number,
): { readonly mean: number; readonly variance: number } {
  let [mean, variance] = [0, 0];
  mapped.forEach((share, i) => {
    const size = sumOf(matrix[i]!) + 1;
    const rate = (matrix[i]![j]! + 0.5) / size;
    mean += share * rate;
    variance += (share * share * rate * (1 - rate)) / (size + 1);
  });
  return { mean, variance };
}
