import { frameProblem, polygonAreaPx } from '../geometry/plotFrame.ts';
import type { PhotoPoint, Quadrilateral } from '../geometry/points.ts';
import type { RgbaRaster } from '../raster/rgbaRaster.ts';
import { type FrameChoice, frameChoices } from './frameChoice.ts';
import { type ReducedPicture, reducePicture } from './reducedPicture.ts';
import { type RefinedFrame, refineCorners } from './refineCorners.ts';
import { stripEdges } from './stripEdges.ts';

/** What a person should look at before relying on a frame that was found; sides count from 0 at the top, clockwise. */
export type FrameWarning =
  /** Part of the pipe is not seen along this side: under grass, behind a foot, or much like the turf. */
  | { readonly code: 'frame-side-hidden'; readonly side: number; readonly seenFraction: number }
  /** The inner edge along this side is ragged; its line may be off by more than a pipe's edge should be. */
  | { readonly code: 'frame-side-uncertain'; readonly side: number }
  /** The pipe is hardly lighter, darker or of another colour than the turf along this side. */
  | { readonly code: 'frame-side-faint'; readonly side: number; readonly contrast: number }
  /** Another frame of the same making is in the photo; `corners` are its corners. */
  | { readonly code: 'second-frame'; readonly corners: Quadrilateral<'photo'> }
  /** Other lines in the photo would make a frame nearly as well. */
  | { readonly code: 'frame-ambiguous' };

export type FrameFinding =
  | {
      readonly found: true;
      /** Inner corners in pixels of the photo. */
      readonly corners: Quadrilateral<'photo'>;
      /** 0..1: how well pipe is seen along the worst side; no probability. */
      readonly confidence: number;
      readonly warnings: readonly FrameWarning[];
    }
  | { readonly found: false; readonly reason: 'no-frame' }
  /** A frame reaches out of the photo; its corners would be at `corners`. */
  | { readonly found: false; readonly reason: 'frame-cut-off'; readonly corners: Quadrilateral<'photo'> };

export interface FindFrameOptions {
  /** The photo reduced before, where a caller has it at hand; else it is made here. */
  readonly reduced?: ReducedPicture;
}

/** Longer side of the picture that lines are looked for in. */
export const SEARCH_SIDE_PX = 1000;

/** A choice below this is no frame: lines of chance in turf stay under it. */
const LEAST_SCORE = 0.5;
/** Each side needs pipe along this share of it, and this share of its stretches on one line. */
const LEAST_SEEN = 0.3;
const LEAST_ON_LINE = 0.3;
/** Below these a side is reported. */
const GOOD_SEEN = 0.85;
const GOOD_ON_LINE = 0.75;
const GOOD_CONTRAST = 32;
/** A rival this near in score is reported. */
const RIVAL_MARGIN = 0.06;
/** Frames that overlap by less than this share of the smaller are two frames. */
const TWO_FRAMES_OVERLAP = 0.4;
const SECOND_FRAME_SCORE = 0.6;

/**
 * Finds the inner edge of the frame on the turf.
 *
 * A pipe of any colour other than the turf's, straight, of a width of 0.4 to 6 % of the photo's longer side, turned
 * by up to some 20 degrees and seen up to 15 degrees off straight down. The frame need not be square.
 */
export function findFrame(photo: RgbaRaster, options: FindFrameOptions = {}): FrameFinding {
  const reduced = options.reduced ?? reducePicture(photo, SEARCH_SIDE_PX);
  const choices = frameChoices(stripEdges(reduced, false), stripEdges(reduced, true));
  const best = choices[0];
  if (!best || best.score < LEAST_SCORE || Math.min(...best.seen) < LEAST_SEEN) {
    return { found: false, reason: 'no-frame' };
  }
  const refined = refineCorners(photo, reduced, best);
  const { corners, sides } = refined;
  const problem = frameProblem(corners, photo.widthPx, photo.heightPx);
  if (problem?.code === 'frame-corner-outside') return { found: false, reason: 'frame-cut-off', corners };
  const onLine = sides.map((side) => side?.onLine ?? 0);
  if (problem || Math.min(...onLine) < LEAST_ON_LINE) return { found: false, reason: 'no-frame' };
  return {
    found: true,
    corners,
    confidence: confidenceOf(best, refined),
    warnings: warningsOf(choices, refined, reduced.factor),
  };
}

function confidenceOf(best: FrameChoice, { sides }: RefinedFrame): number {
  const onLine = Math.min(...sides.map((side) => side?.onLine ?? 0));
  return Math.max(0, Math.min(1, ...best.seen, best.score + 0.1, onLine + 0.2));
}

function warningsOf(
  choices: readonly FrameChoice[],
  { corners, sides }: RefinedFrame,
  factor: number,
): FrameWarning[] {
  const best = choices[0]!;
  const warnings: FrameWarning[] = [];
  for (let side = 0; side < 4; side += 1) {
    const seenFraction = best.seen[side]!;
    if (seenFraction < GOOD_SEEN) warnings.push({ code: 'frame-side-hidden', side, seenFraction });
    else if ((sides[side]?.onLine ?? 0) < GOOD_ON_LINE) warnings.push({ code: 'frame-side-uncertain', side });
    const contrast = sides[side]?.contrast ?? 0;
    if (contrast < GOOD_CONTRAST) warnings.push({ code: 'frame-side-faint', side, contrast });
  }
  const scaled = (choice: FrameChoice) =>
    choice.corners.map(([x, y]) => [x * factor, y * factor]) as unknown as Quadrilateral<'photo'>;
  const others = choices.slice(1).map((choice) => ({ choice, corners: scaled(choice) }));
  const second = others.find(
    ({ choice, corners: other }) =>
      choice.score > SECOND_FRAME_SCORE && overlap(corners, other) < TWO_FRAMES_OVERLAP,
  );
  if (second) warnings.push({ code: 'second-frame', corners: second.corners });
  const side = Math.sqrt(polygonAreaPx(corners));
  const rival = others.find(
    ({ choice, corners: other }) =>
      choice.score > best.score - RIVAL_MARGIN && largestShift(corners, other) > 0.08 * side,
  );
  if (rival && !second) warnings.push({ code: 'frame-ambiguous' });
  return warnings;
}

const largestShift = (a: Quadrilateral<'photo'>, b: Quadrilateral<'photo'>): number =>
  Math.max(...a.map(([x, y], i) => Math.hypot(x - b[i]![0], y - b[i]![1])));

/** Overlap of the boxes round two frames, as a share of the smaller box. */
function overlap(a: Quadrilateral<'photo'>, b: Quadrilateral<'photo'>): number {
  const [p, q] = [boxOf(a), boxOf(b)];
  const width = Math.min(p.right, q.right) - Math.max(p.left, q.left);
  const height = Math.min(p.bottom, q.bottom) - Math.max(p.top, q.top);
  if (width <= 0 || height <= 0) return 0;
  return (width * height) / Math.min(p.area, q.area);
}

function boxOf(corners: readonly PhotoPoint[]) {
  const xs = corners.map(([x]) => x);
  const ys = corners.map(([, y]) => y);
  const [left, right, top, bottom] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  return { left, right, top, bottom, area: (right - left) * (bottom - top) };
}
