import type { VarianceComponents } from '../statistics/planning.ts';
import { twoSidedNormal, wilsonFromSquare } from '../statistics/proportions/proportionInterval.ts';
import { belowWithoutHits } from './pointEstimate.ts';

/** What a number of points in one frame can do. */
export interface FramePlan {
  /** Half of the width of Wilson's interval at the expected cover, as a share. */
  readonly halfWidth: number;
  /** Cover that is hit by at least one point with the stated confidence: less may well go unnoticed. */
  readonly smallestNoticeable: number;
}

/**
 * Half-width and smallest noticeable cover of a count in one frame. For the points that a half-width needs,
 * see `pointsNeeded`.
 *
 * @param cover expected share, 0..1
 * @param points 1 or more
 * @param confidence @default 0.95
 */
export function planFrameCount(cover: number, points: number, confidence = 0.95): FramePlan {
  if (!(cover >= 0 && cover <= 1)) throw new RangeError(`cover must be within 0..1, got ${cover}`);
  if (!(points >= 1)) throw new RangeError(`points must be 1 or more, got ${points}`);
  const z = twoSidedNormal(confidence);
  const { low, high } = wilsonFromSquare(cover * points, points, z * z);
  return { halfWidth: (high - low) / 2, smallestNoticeable: belowWithoutHits(points, confidence) };
}

/**
 * Standard errors of a plot's cover in percentage points, for the effort as it is and for twice of either.
 */
export interface FramesAgainstPoints {
  readonly standardError: number;
  readonly withTwiceTheFrames: number;
  readonly withTwiceThePoints: number;
  /**
   * Which of the two doublings, the same number of calls, takes more off the error; both the same only
   * without any spread between frames.
   */
  readonly better: 'frames' | 'same';
  /** Share of the variance that points alone can remove, 0..1. */
  readonly pointShare: number;
}

/**
 * Whether more frames or more points in each help a plot's cover: (frame variance + point variance / points)
 * / frames.
 *
 * Twice the frames with as many points each halves both parts; twice the points halves only the second, so
 * frames never do worse.
 *
 * @param components from `estimateVarianceComponents`; the difference between plots has no part in this
 */
export function framesAgainstPoints(
  framesPerPlot: number,
  pointsPerFrame: number,
  { frame, point }: Pick<VarianceComponents, 'frame' | 'point'>,
): FramesAgainstPoints {
  if (!(framesPerPlot >= 1 && pointsPerFrame >= 1)) {
    throw new RangeError(`frames and points must be 1 or more, got ${framesPerPlot} and ${pointsPerFrame}`);
  }
  const errorOf = (frames: number, points: number) => Math.sqrt((frame + point / points) / frames);
  const inFrame = frame + point / pointsPerFrame;
  return {
    standardError: errorOf(framesPerPlot, pointsPerFrame),
    withTwiceTheFrames: errorOf(2 * framesPerPlot, pointsPerFrame),
    withTwiceThePoints: errorOf(framesPerPlot, 2 * pointsPerFrame),
    better: frame > 0 ? 'frames' : 'same',
    pointShare: inFrame > 0 ? point / pointsPerFrame / inFrame : 0,
  };
}

/** Ways to spread a number of calls over frames. */
export interface EffortOption {
  readonly framesPerPlot: number;
  readonly pointsPerFrame: number;
  readonly standardError: number;
}

/**
 * All ways to spread at most `calls` calls evenly over 1 .. `mostFrames` frames of a plot, with the error of
 * each.
 */
export function effortOptions(
  calls: number,
  mostFrames: number,
  components: Pick<VarianceComponents, 'frame' | 'point'>,
): EffortOption[] {
  return Array.from({ length: mostFrames }, (_, i) => i + 1)
    .filter((framesPerPlot) => calls >= framesPerPlot)
    .map((framesPerPlot) => {
      const pointsPerFrame = Math.floor(calls / framesPerPlot);
      const { standardError } = framesAgainstPoints(framesPerPlot, pointsPerFrame, components);
      return { framesPerPlot, pointsPerFrame, standardError };
    });
}
