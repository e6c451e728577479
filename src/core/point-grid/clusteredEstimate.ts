import { studentTCritical } from '../statistics/distributions/studentT.ts';
import { type Interval, wilsonFromSquare } from '../statistics/proportions/proportionInterval.ts';
import { type CallCounts, judgedPoints } from './callCounts.ts';
import { clusterVariance } from './clusterVariance.ts';
import {
  type ClassEstimate,
  type EstimateNote,
  type EstimateNoteCode,
  indeterminateNotes,
  type PointEstimate,
  rangeOfIndeterminate,
} from './pointEstimate.ts';

/**
 * Cover of a plot from the points of several frames.
 *
 * Points of a frame stand in the same patches, so frames, not points, are the independent pieces. Cover is
 * the ratio of hits to judged points over all frames; its variance is that of a ratio by linearisation, m /
 * (m - 1) sum (hits - cover x points)^2 / (sum of points)^2 over m frames. Interval: Wilson's for the number
 * of independent points that would have this variance (never more than were judged), with Student's t for m -
 * 1 degrees of freedom.
 *
 * @param frames placed at random in the plot; frames without a judged point are left out and noted
 * @param confidence @default 0.95
 * @see Cochran 1977, Sampling Techniques, section 3.12 (ratio for clusters); Korn & Graubard 1998, Surv.
 * Methodol. 24:193 (effective number and t)
 */
export function estimatePlotCover(frames: readonly CallCounts[], confidence = 0.95): PointEstimate {
  return clusteredRatio(frames, confidence, {
    target: 'plot',
    method: 'frames-as-clusters',
    single: 'one-frame',
    empty: 'frames-without-points',
  });
}

/**
 * Cover of one frame from points on transect lines: as for a plot, with lines in place of frames, since
 * points of one line stand in the same patches. A little wide for lines at equal distances, which spread
 * better than lines drawn one by one.
 *
 * @param lines 2 or more for an interval
 * @param confidence @default 0.95
 */
export function estimateTransectCover(lines: readonly CallCounts[], confidence = 0.95): PointEstimate {
  return clusteredRatio(lines, confidence, {
    target: 'frame',
    method: 'lines-as-clusters',
    single: 'one-line',
    empty: 'lines-without-points',
  });
}

function clusteredRatio(
  clusters: readonly CallCounts[],
  confidence: number,
  {
    single,
    empty,
    ...head
  }: Pick<PointEstimate, 'target' | 'method'> & {
    readonly single: EstimateNoteCode;
    readonly empty: EstimateNoteCode;
  },
): PointEstimate {
  const classCount = sameClasses(clusters);
  const counted = clusters.filter((cluster) => judgedPoints(cluster) > 0);
  const points = counted.reduce((sum, cluster) => sum + judgedPoints(cluster), 0);
  const indeterminate = clusters.reduce((sum, cluster) => sum + cluster.indeterminate, 0);
  const notes: EstimateNote[] = [];
  if (points === 0) notes.push({ code: 'no-points-judged', count: null });
  else if (counted.length === 1) notes.push({ code: single, count: null });
  if (points > 0 && counted.length < clusters.length) {
    notes.push({ code: empty, count: clusters.length - counted.length });
  }
  let withoutSpread = 0;
  const classes = Array.from({ length: classCount }, (_, index): ClassEstimate => {
    const hits = counted.reduce((sum, cluster) => sum + cluster.hits[index]!, 0);
    const cover = points > 0 ? hits / points : null;
    const deviations = counted.map((cluster) => cluster.hits[index]! - (cover ?? 0) * judgedPoints(cluster));
    const variance = clusterVariance(deviations, points);
    if (variance === 0) withoutSpread += 1;
    return classEstimate({
      hits,
      cover,
      variance,
      clusters: counted.length,
      points,
      indeterminate,
      classCount,
      confidence,
    });
  });
  if (withoutSpread > 0) notes.push({ code: 'no-spread-seen', count: withoutSpread });
  notes.push(...indeterminateNotes(points, indeterminate));
  return { ...head, confidence, points, indeterminate, classes, notes };
}

/**
 * Mean cover of a treatment's plots from their points, each plot with the same weight.
 *
 * The variance is that of the plot covers about their mean, divided by the number of plots: it holds
 * everything that makes plots of a treatment differ (points, frames, plots, blocks), so no design within the
 * plots needs to be known. A comparison of treatments has its own, usually smaller, error with blocks taken
 * out.
 *
 * @param plots the frames of each plot
 * @param confidence @default 0.95
 * @see Cochran 1977, Sampling Techniques, section 11.2 ff.: variance between primary units
 */
export function estimateTreatmentCover(
  plots: readonly (readonly CallCounts[])[],
  confidence = 0.95,
): PointEstimate {
  const classCount = sameClasses(plots.flat());
  const all = plots.map((frames) => estimatePlotCover(frames, confidence));
  const counted = all.filter((plot) => plot.points > 0);
  const points = counted.reduce((sum, plot) => sum + plot.points, 0);
  const indeterminate = all.reduce((sum, plot) => sum + plot.indeterminate, 0);
  const notes: EstimateNote[] = [];
  if (points === 0) notes.push({ code: 'no-points-judged', count: null });
  else if (counted.length === 1) notes.push({ code: 'one-plot', count: null });
  if (points > 0 && counted.length < all.length) {
    notes.push({ code: 'plots-without-points', count: all.length - counted.length });
  }
  let withoutSpread = 0;
  const classes = Array.from({ length: classCount }, (_, index): ClassEstimate => {
    const covers = counted.map((plot) => plot.classes[index]!.coverFraction!);
    const hits = counted.reduce((sum, plot) => sum + plot.classes[index]!.hits, 0);
    const mean = covers.length > 0 ? covers.reduce((sum, cover) => sum + cover, 0) / covers.length : null;
    const deviations = covers.map((cover) => cover - mean!);
    const variance = clusterVariance(deviations, covers.length);
    if (variance === 0) withoutSpread += 1;
    return classEstimate({
      hits,
      cover: mean,
      variance,
      clusters: covers.length,
      points,
      indeterminate,
      classCount,
      confidence,
    });
  });
  if (withoutSpread > 0) notes.push({ code: 'no-spread-seen', count: withoutSpread });
  notes.push(...indeterminateNotes(points, indeterminate));
  return {
    target: 'treatment-mean',
    method: 'between-plots',
    confidence,
    points,
    indeterminate,
    classes,
    notes,
  };
}

function classEstimate(input: {
  readonly hits: number;
  readonly cover: number | null;
  readonly variance: number | null;
  readonly clusters: number;
  readonly points: number;
  readonly indeterminate: number;
  readonly classCount: number;
  readonly confidence: number;
}): ClassEstimate {
  const { hits, cover, variance, clusters, points, indeterminate, classCount, confidence } = input;
  const intervalAt = (alpha: number): Interval | null => {
    if (cover === null || variance === null) return null;
    const t = studentTCritical(alpha, clusters - 1);
    const binomial = cover * (1 - cover);
    const effective = variance > 0 ? Math.min(points, binomial / variance) : points;
    return wilsonFromSquare(cover * effective, effective, t * t);
  };
  const interval = intervalAt(1 - confidence);
  return {
    hits,
    coverFraction: cover,
    standardError: variance === null ? null : Math.sqrt(variance),
    interval,
    simultaneous: classCount > 1 ? intervalAt((1 - confidence) / classCount) : null,
    // one frame or plot without a hit says nothing about the others
    belowFraction: hits === 0 && interval ? interval.high : null,
    ifIndeterminate: cover === null ? null : rangeOfIndeterminate(hits, points, indeterminate),
  };
}

function sameClasses(counts: readonly CallCounts[]): number {
  const first = counts[0];
  if (!first) throw new RangeError('1 frame or more is needed, got none');
  for (const { hits } of counts) {
    if (hits.length !== first.hits.length) {
      throw new RangeError(`frames of ${first.hits.length} and of ${hits.length} classes cannot be added`);
    }
  }
  return first.hits.length;
}
