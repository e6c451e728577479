import { normalQuantile } from '../statistics/distributions/normal.ts';
import { type Note, note } from '../statistics/note.ts';
import { cohenKappa } from './kappa.ts';

/** Points judged by eye against the mask: the mask's share of each class, and counts by mask class and observed class. */
export interface ReferenceCounts {
  readonly classes: readonly string[];
  /** Share of the measured area that the mask gives each class; adds to 1. */
  readonly mappedFraction: readonly number[];
  /** Rows class on the mask, columns class observed. */
  readonly counts: readonly (readonly number[])[];
}

/** Cover adjusted for the mask's errors, with accuracies. Each list has one entry for each class; null where unknown. */
export interface AdjustedCover {
  readonly classes: readonly string[];
  readonly adjustedFraction: readonly (number | null)[];
  readonly standardError: readonly (number | null)[];
  readonly low: readonly (number | null)[];
  readonly high: readonly (number | null)[];
  /** Share of what the mask calls a class that is it. */
  readonly usersAccuracy: readonly (number | null)[];
  readonly usersStandardError: readonly (number | null)[];
  /** Share of a class that the mask calls so. */
  readonly producersAccuracy: readonly (number | null)[];
  readonly producersStandardError: readonly (number | null)[];
  readonly overallAccuracy: number | null;
  readonly overallStandardError: number | null;
  /** Kappa of the estimated area shares; its error follows from the same stratified counts. */
  readonly kappa: number | null;
  readonly kappaStandardError: number | null;
  /** Cohen's kappa of the raw counts, as if points had been drawn without regard to the mask's classes. */
  readonly kappaOfCounts: number | null;
  readonly kappaOfCountsStandardError: number | null;
  readonly notes: readonly Note[];
}

/**
 * Post-stratified estimate of cover: the mask's share of each class, corrected by what observers saw at points in it.
 *
 * @param confidence of low and high @default 0.95
 * @throws RangeError when sizes do not match, shares do not add to 1 or a count is not a whole number, 0 or more
 * @see Olofsson et al. 2014, Remote Sens. Environ. 148:42, equations 1-11; kappa by the delta method
 */
export function adjustCover(reference: ReferenceCounts, confidence = 0.95): AdjustedCover {
  checkReference(reference);
  const { classes, mappedFraction, counts } = reference;
  const index = classes.map((_, i) => i);
  const points = counts.map((row) => row.reduce((sum, count) => sum + count, 0));
  const notes = countNotes(reference, points);
  const users = index.map((i) => (points[i]! > 0 ? counts[i]![i]! / points[i]! : null));
  // a stratum with area but without points leaves everything that needs it unknown
  const covered = index.every((i) => points[i]! > 0 || mappedFraction[i] === 0);
  const measurable = index.every((i) => points[i]! > 1 || mappedFraction[i] === 0);
  const rate = (i: number, j: number): number => (points[i]! > 0 ? counts[i]![j]! / points[i]! : 0);
  const rowVariance = (i: number, j: number): number =>
    points[i]! > 1 ? (rate(i, j) * (1 - rate(i, j))) / (points[i]! - 1) : 0;
  const sum = (of: (i: number) => number): number => index.reduce((total, i) => total + of(i), 0);
  const fraction = index.map((j) => sum((i) => mappedFraction[i]! * rate(i, j)));
  const error = index.map((j) => Math.sqrt(sum((i) => mappedFraction[i]! ** 2 * rowVariance(i, j))));
  const reach = -normalQuantile((1 - confidence) / 2);
  const low = index.map((j) => fraction[j]! - reach * error[j]!);
  const high = index.map((j) => fraction[j]! + reach * error[j]!);
  const cut = classes.filter((_, j) => covered && measurable && (low[j]! < 0 || high[j]! > 1));
  const producers = index.map((j) =>
    producersAccuracy(j, { index, mappedFraction, rate, rowVariance, fraction }),
  );
  const never = classes.filter((_, j) => covered && producers[j] === null);
  const weighted = covered ? areaKappa(reference, points, fraction) : null;
  const raw = points.some((n) => n > 0) ? cohenKappa(counts) : null;
  if (covered && weighted === null) notes.push(note('kappa-undefined'));
  if (cut.length > 0) notes.push(note('interval-cut', { classes: cut }));
  if (never.length > 0) notes.push(note('class-never-observed', { classes: never }));
  const when = (known: boolean, value: number): number | null => (known ? value : null);
  return {
    classes,
    adjustedFraction: fraction.map((value) => when(covered, value)),
    standardError: error.map((value) => when(measurable, value)),
    low: low.map((value) => when(measurable, Math.max(0, value))),
    high: high.map((value) => when(measurable, Math.min(1, value))),
    usersAccuracy: users,
    usersStandardError: index.map((i) => when(points[i]! > 1, Math.sqrt(rowVariance(i, i)))),
    producersAccuracy: producers.map((value) => (covered ? (value?.accuracy ?? null) : null)),
    producersStandardError: producers.map((value) => (measurable ? (value?.standardError ?? null) : null)),
    overallAccuracy: when(
      covered,
      sum((i) => mappedFraction[i]! * rate(i, i)),
    ),
    overallStandardError: when(
      measurable,
      Math.sqrt(sum((i) => mappedFraction[i]! ** 2 * rowVariance(i, i))),
    ),
    kappa: weighted?.kappa ?? null,
    kappaStandardError: measurable ? (weighted?.standardError ?? null) : null,
    kappaOfCounts: raw?.kappa ?? null,
    kappaOfCountsStandardError: raw?.standardError ?? null,
    notes,
  };
}

function producersAccuracy(
  j: number,
  input: {
    readonly index: readonly number[];
    readonly mappedFraction: readonly number[];
    readonly rate: (i: number, j: number) => number;
    readonly rowVariance: (i: number, j: number) => number;
    readonly fraction: readonly number[];
  },
): { accuracy: number; standardError: number } | null {
  const { index, mappedFraction, rate, rowVariance, fraction } = input;
  const total = fraction[j]!;
  if (!(total > 0)) return null;
  const mapped = mappedFraction[j]!;
  const accuracy = (mapped * rate(j, j)) / total;
  // equation 7: mapped total of the class, others summed over i != j
  const others = index.reduce(
    (sum, i) => (i === j ? sum : sum + mappedFraction[i]! ** 2 * rowVariance(i, j)),
    0,
  );
  const variance =
    (mapped ** 2 * (1 - accuracy) ** 2 * rowVariance(j, j) + accuracy ** 2 * others) / total ** 2;
  return { accuracy, standardError: Math.sqrt(variance) };
}

/** Kappa of the estimated shares of area, rows known from the mask. */
function areaKappa(
  { mappedFraction, counts }: ReferenceCounts,
  points: readonly number[],
  fraction: readonly number[],
): { kappa: number; standardError: number } | null {
  const index = mappedFraction.map((_, i) => i);
  const rate = (i: number, j: number): number => (points[i]! > 0 ? counts[i]![j]! / points[i]! : 0);
  const agreement = index.reduce((sum, i) => sum + mappedFraction[i]! * rate(i, i), 0);
  const chance = index.reduce((sum, i) => sum + mappedFraction[i]! * fraction[i]!, 0);
  const beyond = 1 - chance;
  if (!(beyond > 1e-12)) return null;
  const kappa = (agreement - chance) / beyond;
  // derivative by the share of row i observed as j: agreement changes on the diagonal, chance through the column total
  const variance = index.reduce((sum, i) => {
    if (points[i]! < 2) return sum;
    const slope = (j: number): number => (Number(i === j) - (1 - kappa) * mappedFraction[j]!) / beyond;
    const mean = index.reduce((total, j) => total + rate(i, j) * slope(j), 0);
    const square = index.reduce((total, j) => total + rate(i, j) * slope(j) ** 2, 0);
    return sum + (mappedFraction[i]! ** 2 * Math.max(0, square - mean ** 2)) / (points[i]! - 1);
  }, 0);
  return { kappa, standardError: Math.sqrt(variance) };
}

function countNotes({ classes, mappedFraction, counts }: ReferenceCounts, points: readonly number[]): Note[] {
  const named = (keep: (i: number) => boolean): string[] => classes.filter((_, i) => keep(i));
  const without = named((i) => points[i] === 0 && mappedFraction[i]! > 0);
  const single = named((i) => points[i] === 1 && mappedFraction[i]! > 0);
  const flawless = named((i) => points[i]! > 1 && counts[i]![i] === points[i]);
  return [
    ...(without.length > 0 ? [note('stratum-without-points', { classes: without })] : []),
    ...(single.length > 0 ? [note('stratum-one-point', { classes: single })] : []),
    ...(flawless.length > 0 ? [note('no-errors-seen', { classes: flawless })] : []),
  ];
}

function checkReference({ classes, mappedFraction, counts }: ReferenceCounts): void {
  const size = classes.length;
  if (size < 2) throw new RangeError(`2 classes or more are needed, got ${size}`);
  if (mappedFraction.length !== size || counts.length !== size || counts.some((row) => row.length !== size)) {
    throw new RangeError(`mapped shares and counts must have ${size} entries and ${size} x ${size} counts`);
  }
  for (const value of mappedFraction) {
    if (!(value >= 0 && value <= 1)) throw new RangeError(`mapped shares must be within 0..1, got ${value}`);
  }
  const total = mappedFraction.reduce((sum, value) => sum + value, 0);
  if (!(Math.abs(total - 1) < 1e-6))
    throw new RangeError(`mapped shares must add to 1, they add to ${total}`);
  const bad = counts.flat().find((count) => !(Number.isInteger(count) && count >= 0));
  if (bad !== undefined) throw new RangeError(`counts must be whole numbers, 0 or more, got ${bad}`);
}
