import { goodmanIntervals } from '../statistics/proportions/multinomialIntervals.ts';
import { type Interval, wilsonInterval } from '../statistics/proportions/proportionInterval.ts';
import { type CallCounts, judgedPoints } from './callCounts.ts';

/** What an interval is about: the ground in one frame, a whole plot, or the mean of a treatment's plots. */
export type EstimateTarget = 'frame' | 'plot' | 'treatment-mean';

/** Why an interval is missing, or what it leaves out. */
export type EstimateNoteCode =
  | 'no-points-judged'
  | 'frames-without-points'
  | 'one-frame'
  | 'lines-without-points'
  | 'one-line'
  | 'one-plot'
  | 'plots-without-points'
  | 'no-spread-seen'
  | 'indeterminate-many';

export interface EstimateNote {
  readonly code: EstimateNoteCode;
  /** How many frames, plots, classes or percent the code speaks of; null where it needs no number. */
  readonly count: number | null;
}

/** Cover of one class from points. Shares are 0..1 of the judged points. */
export interface ClassEstimate {
  readonly hits: number;
  /** Null when no point was judged. */
  readonly coverFraction: number | null;
  readonly standardError: number | null;
  /** For this class alone. */
  readonly interval: Interval | null;
  /** All classes together hold with the stated confidence. */
  readonly simultaneous: Interval | null;
  /**
   * Where no point hit the class: with the stated confidence there is less of it than this. Null with hits.
   */
  readonly belowFraction: number | null;
  /**
   * The cover if none, or all, of the indeterminate points were this class; null without indeterminate
   * points.
   */
  readonly ifIndeterminate: Interval | null;
}

export interface PointEstimate {
  readonly target: EstimateTarget;
  /**
   * How the error was found: Wilson for independent points; linearised ratio with frames or transect lines as
   * clusters; spread of plot covers.
   */
  readonly method: 'independent-points' | 'lines-as-clusters' | 'frames-as-clusters' | 'between-plots';
  readonly confidence: number;
  /** Points with a verdict. */
  readonly points: number;
  readonly indeterminate: number;
  /** In class order. */
  readonly classes: readonly ClassEstimate[];
  readonly notes: readonly EstimateNote[];
}

/**
 * From this share of points without a verdict on, the figure depends on what they would have been. Choice of
 * this project.
 */
const MANY_INDETERMINATE = 0.05;

/**
 * Cover of one frame: Wilson's interval for each class, Goodman's for all together.
 *
 * Assumes independent points; for a grid on patchy turf the interval is then a little wide (measured in
 * docs/method.md); for transect lines see `estimateTransectCover`. It says nothing about the plot outside the
 * frame.
 *
 * @param confidence @default 0.95
 */
export function estimateFrameCover(counts: CallCounts, confidence = 0.95): PointEstimate {
  const points = judgedPoints(counts);
  const simultaneous =
    points > 0 && counts.hits.length > 1 ? goodmanIntervals(counts.hits, confidence) : null;
  const classes = counts.hits.map((hits, index): ClassEstimate => {
    const coverFraction = points > 0 ? hits / points : null;
    return {
      hits,
      coverFraction,
      standardError:
        coverFraction === null ? null : Math.sqrt((coverFraction * (1 - coverFraction)) / points),
      interval: points > 0 ? wilsonInterval(hits, points, confidence) : null,
      simultaneous: simultaneous?.[index] ?? null,
      belowFraction: points > 0 && hits === 0 ? belowWithoutHits(points, confidence) : null,
      ifIndeterminate: rangeOfIndeterminate(hits, points, counts.indeterminate),
    };
  });
  const notes: EstimateNote[] = points === 0 ? [{ code: 'no-points-judged', count: null }] : [];
  notes.push(...indeterminateNotes(points, counts.indeterminate));
  const { indeterminate } = counts;
  return { target: 'frame', method: 'independent-points', confidence, points, indeterminate, classes, notes };
}

/**
 * Upper bound of a share that no point hit: 1 - (1 - confidence)^(1 / n), one-sided and exact; about 3 / n at
 * 95 %.
 *
 * @see Hanley & Lippman-Hand 1983, JAMA 249:1743
 */
export function belowWithoutHits(points: number, confidence: number): number {
  return -Math.expm1(Math.log1p(-confidence) / points);
}

export function rangeOfIndeterminate(hits: number, points: number, indeterminate: number): Interval | null {
  if (indeterminate === 0) return null;
  const all = points + indeterminate;
  return { low: hits / all, high: (hits + indeterminate) / all };
}

export function indeterminateNotes(points: number, indeterminate: number): EstimateNote[] {
  const share = points + indeterminate > 0 ? indeterminate / (points + indeterminate) : 0;
  return share >= MANY_INDETERMINATE ? [{ code: 'indeterminate-many', count: Math.round(share * 100) }] : [];
}
