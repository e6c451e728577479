import { designTerms, treatmentFactor } from './analysisModel.ts';
import { FEW_ERROR_DEGREES_OF_FREEDOM } from './analysisNotes.ts';
import { findRoot } from './distributions/findRoot.ts';
import { noncentralFUpperTail } from './distributions/noncentralF.ts';
import { studentTCritical } from './distributions/studentT.ts';
import { fitLinearModel } from './linearModel/linearModel.ts';
import { type Note, note } from './note.ts';
import type { PlotObservation, TrialDesign } from './plotObservation.ts';

/** Variances of a cover in squared percentage points, by where they arise. */
export interface VarianceComponents {
  /** Between plots of one treatment within a block. */
  readonly plot: number;
  /** Between frames (places) within a plot. */
  readonly frame: number;
  /** Of one point: 10^4 p (1 - p) for points called one by one, 0 where a whole mask is measured. */
  readonly point: number;
}

/** One frame of one plot. */
export interface FrameObservation extends PlotObservation {
  /** Points judged in the frame; absent where the mask is measured. */
  readonly points?: number;
}

/** Effort of a trial. */
export interface TrialEffort {
  readonly design: Exclude<TrialDesign, 'latin-square'>;
  readonly treatments: number;
  /** Blocks, or replicates without blocks. */
  readonly blocks: number;
  readonly framesPerPlot: number;
  /** Points for each frame; ignored when the point variance is 0. */
  readonly pointsPerFrame: number;
}

/**
 * Estimates variance components from frames of an earlier trial, by equating mean squares.
 *
 * Frames within plots give frame + point; plot means give plot + that over the (harmonic mean) number of frames. A negative
 * estimate is set to 0.
 *
 * @returns null when no plot has 2 frames, or plot means leave no error
 */
export function estimateVarianceComponents(
  frames: readonly FrameObservation[],
  design: TrialDesign,
): VarianceComponents | null {
  const plots = new Map<string, FrameObservation[]>();
  for (const frame of frames) {
    const own = plots.get(frame.plot);
    if (own) own.push(frame);
    else plots.set(frame.plot, [frame]);
  }
  const groups = [...plots.values()];
  const meanOf = (own: readonly FrameObservation[]): number =>
    own.reduce((sum, frame) => sum + frame.value, 0) / own.length;
  const df = frames.length - groups.length;
  if (df < 1) return null;
  const within =
    groups.reduce(
      (sum, own) => sum + own.reduce((inner, frame) => inner + (frame.value - meanOf(own)) ** 2, 0),
      0,
    ) / df;
  const means = groups.map((own) => ({ ...own[0]!, value: meanOf(own) }));
  const fit = fitLinearModel(
    means.map((plot) => plot.value),
    designTerms(means, design, [{ name: 'treatment', factors: [treatmentFactor(means)] }], false),
  );
  if (fit.residualDegreesOfFreedom < 1) return null;
  const between = fit.residualSumOfSquares / fit.residualDegreesOfFreedom;
  const inverseFrames = groups.reduce((sum, own) => sum + 1 / own.length, 0) / groups.length;
  const counted = frames.filter((frame) => frame.points !== undefined);
  const average = (of: (frame: FrameObservation) => number): number =>
    counted.length === 0 ? 0 : counted.reduce((sum, frame) => sum + of(frame), 0) / counted.length;
  const point = average((frame) => frame.value * (100 - frame.value));
  const pointInFrame = average((frame) => (frame.value * (100 - frame.value)) / frame.points!);
  return {
    plot: Math.max(0, between - within * inverseFrames),
    frame: Math.max(0, within - pointInFrame),
    point,
  };
}

/** Error degrees of freedom of a trial with all plots. */
export function errorDegreesOfFreedom({ design, treatments, blocks }: TrialEffort): number {
  return design === 'completely-randomized' ? treatments * (blocks - 1) : (treatments - 1) * (blocks - 1);
}

/** Standard error of the difference of two treatment means. */
export function plannedStandardErrorOfDifference(
  effort: TrialEffort,
  components: VarianceComponents,
): number {
  const inFrame = components.frame + components.point / effort.pointsPerFrame;
  return Math.sqrt((2 * (components.plot + inFrame / effort.framesPerPlot)) / effort.blocks);
}

/**
 * Probability that a true difference of two treatments comes out significant in a two-sided t test (no protection for many
 * comparisons).
 *
 * @returns null without error degrees of freedom or without any variance
 */
export function powerForDifference(
  effort: TrialEffort,
  components: VarianceComponents,
  difference: number,
  alpha = 0.05,
): number | null {
  checkEffort(effort, components);
  const df = errorDegreesOfFreedom(effort);
  const error = plannedStandardErrorOfDifference(effort, components);
  if (df < 1 || !(error > 0)) return null;
  return noncentralFUpperTail(studentTCritical(alpha, df) ** 2, 1, df, (difference / error) ** 2);
}

/**
 * Smallest true difference that a two-sided t test at alpha sees with the given power.
 *
 * @param standardError of the difference
 * @param degreesOfFreedom of the error
 * @returns null without degrees of freedom or without any error
 * @throws RangeError if power is not above alpha and below 1
 */
export function noticeableDifference(
  standardError: number,
  degreesOfFreedom: number,
  power: number,
  alpha: number,
): number | null {
  checkShare('power', power);
  if (power <= alpha) throw new RangeError(`power must be above alpha ${alpha}, got ${power}`);
  if (degreesOfFreedom < 1 || !(standardError > 0)) return null;
  const critical = studentTCritical(alpha, degreesOfFreedom) ** 2;
  // in units of the standard error
  const short = (d: number): number => noncentralFUpperTail(critical, 1, degreesOfFreedom, d ** 2) - power;
  let high = 1;
  while (short(high) < 0) high *= 2;
  return standardError * findRoot(short, 0, high, 1e-12);
}

/** Smallest true difference seen with the given power; null where no power can be computed. */
export function detectableDifference(
  effort: TrialEffort,
  components: VarianceComponents,
  power: number,
  alpha = 0.05,
): number | null {
  checkEffort(effort, components);
  const error = plannedStandardErrorOfDifference(effort, components);
  return noticeableDifference(error, errorDegreesOfFreedom(effort), power, alpha);
}

/** What has to be decided, the rest being given. */
export type PlannedQuantity = 'blocks' | 'framesPerPlot' | 'pointsPerFrame';

/** The least effort that reaches the power. */
export interface EffortNeeded {
  /** Null when even `limit` does not reach it. */
  readonly value: number | null;
  readonly limit: number;
  readonly power: number | null;
  readonly errorDf: number | null;
  readonly notes: readonly Note[];
}

const LIMITS: Record<PlannedQuantity, number> = { blocks: 100, framesPerPlot: 200, pointsPerFrame: 10_000 };

/**
 * Blocks, frames per plot or points per frame needed to see a difference with the given power.
 *
 * More frames or points only shrink their own part of the error: where plots differ, no number of points replaces a block, and
 * the answer can be that no number is enough.
 */
export function effortNeeded(
  quantity: PlannedQuantity,
  given: TrialEffort,
  components: VarianceComponents,
  goal: { readonly difference: number; readonly power: number; readonly alpha?: number },
): EffortNeeded {
  checkShare('power', goal.power);
  if (!(Math.abs(goal.difference) > 0))
    throw new RangeError(`difference must not be 0, got ${goal.difference}`);
  const limit = LIMITS[quantity];
  const powerAt = (value: number): number =>
    powerForDifference({ ...given, [quantity]: value }, components, goal.difference, goal.alpha) ?? 0;
  let low = quantity === 'blocks' ? 1 : 0;
  let high = limit;
  if (powerAt(limit) < goal.power) return { value: null, limit, power: null, errorDf: null, notes: [] };
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (powerAt(middle) >= goal.power) high = middle;
    else low = middle;
  }
  const errorDf = errorDegreesOfFreedom({ ...given, [quantity]: high });
  const notes =
    errorDf < FEW_ERROR_DEGREES_OF_FREEDOM
      ? [note('few-error-degrees-of-freedom', { df: errorDf, wanted: FEW_ERROR_DEGREES_OF_FREEDOM })]
      : [];
  return { value: high, limit, power: powerAt(high), errorDf, notes };
}

function checkShare(name: string, value: number): void {
  if (!(value > 0 && value < 1)) throw new RangeError(`${name} must be between 0 and 1, got ${value}`);
}

function checkEffort(effort: TrialEffort, components: VarianceComponents): void {
  const { treatments, blocks, framesPerPlot, pointsPerFrame } = effort;
  for (const [name, value] of Object.entries({ treatments, blocks, framesPerPlot, pointsPerFrame })) {
    if (!(Number.isInteger(value) && value >= 1))
      throw new RangeError(`${name} must be a whole number, 1 or more, got ${value}`);
  }
  for (const [name, value] of Object.entries(components)) {
    if (!(value >= 0)) throw new RangeError(`variance of ${name} must not be negative, got ${value}`);
  }
}
