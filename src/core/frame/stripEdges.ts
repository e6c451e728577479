import type { ReducedPicture } from './reducedPicture.ts';

/** Lightness, red against green, blue against yellow: differences by which a pipe stands out from turf. */
export const EDGE_CHANNELS = 3;

/**
 * Colour steps across a picture, averaged over narrow strips that run along the lines looked for.
 *
 * Lines that run down the picture cross strips of rows; for lines that run across it the picture is turned over its
 * diagonal first, so that here every line runs down: `across` is the axis along a strip, `strips` lie below each other.
 */
export interface StripEdges {
  readonly acrossPx: number;
  readonly strips: number;
  readonly stripPx: number;
  /**
   * For each channel the step from the left to the right of each column's left edge, in units of what is usual in
   * this picture, kept within -LARGEST_STEP..LARGEST_STEP; index = strip * acrossPx + column.
   */
  readonly steps: readonly Float32Array[];
}

/** Rows in a strip: a line that leans by 0.5 smears by half of it. */
const STRIP_PX = 12;
/** Columns averaged on each side of an edge; pipes are at least this wide. */
const REACH_PX = 4;
/** A single strip, be its step ever so large, counts no more than this. */
const LARGEST_STEP = 4;

/** Steps across lines that run down the picture (`turned` false) or across it (`turned` true). */
export function stripEdges(picture: ReducedPicture, turned: boolean): StripEdges {
  const acrossPx = turned ? picture.heightPx : picture.widthPx;
  const alongPx = turned ? picture.widthPx : picture.heightPx;
  const strips = Math.floor(alongPx / STRIP_PX);
  const sumsOf = (plane: Uint8Array) => stripSums(plane, picture.widthPx, turned, acrossPx, strips);
  const [red, green, blue] = [sumsOf(picture.red), sumsOf(picture.green), sumsOf(picture.blue)];
  const planes = [
    new Float32Array(red.length),
    new Float32Array(red.length),
    new Float32Array(red.length),
  ] as const;
  for (let i = 0; i < red.length; i += 1) {
    const [r, g, b] = [red[i]!, green[i]!, blue[i]!];
    planes[0][i] = (r + 2 * g + b) / 4;
    planes[1][i] = r - g;
    planes[2][i] = b - (r + g) / 2;
  }
  return {
    acrossPx,
    strips,
    stripPx: STRIP_PX,
    steps: planes.map((plane) => inUsualSteps(stepsOf(plane, acrossPx, strips))),
  };
}

/** Sums over the rows of each strip; lengths are all the same, so sums serve as well as means. */
function stripSums(
  plane: Uint8Array,
  widthPx: number,
  turned: boolean,
  acrossPx: number,
  strips: number,
): Float32Array {
  const sums = new Float32Array(acrossPx * strips);
  if (turned) {
    for (let i = 0; i < acrossPx; i += 1) {
      let at = i * widthPx;
      for (let strip = 0; strip < strips; strip += 1) {
        let sum = 0;
        for (const end = at + STRIP_PX; at < end; at += 1) sum += plane[at]!;
        sums[strip * acrossPx + i] = sum;
      }
    }
    return sums;
  }
  for (let strip = 0; strip < strips; strip += 1) {
    const to = strip * acrossPx;
    for (let k = 0; k < STRIP_PX; k += 1) {
      const row = (strip * STRIP_PX + k) * widthPx;
      for (let i = 0; i < acrossPx; i += 1) sums[to + i]! += plane[row + i]!;
    }
  }
  return sums;
}

/** Sum of the columns from an edge on less the sum of those before it. */
function stepsOf(plane: Float32Array, acrossPx: number, strips: number): Float32Array {
  const steps = new Float32Array(plane.length);
  for (let strip = 0; strip < strips; strip += 1) {
    const row = strip * acrossPx;
    for (let i = REACH_PX; i + REACH_PX <= acrossPx; i += 1) {
      let step = 0;
      for (let k = 0; k < REACH_PX; k += 1) step += plane[row + i + k]! - plane[row + i - 1 - k]!;
      steps[row + i] = step;
    }
  }
  return steps;
}

/** Divides by the median size of a step (turf is most of any picture) and caps; in place. */
function inUsualSteps(steps: Float32Array): Float32Array {
  const sizes = new Float32Array(Math.floor(steps.length / 7));
  for (let i = 0; i < sizes.length; i += 1) sizes[i] = Math.abs(steps[7 * i]!);
  const scale = 1 / (sizes.sort()[sizes.length >> 1]! || 1);
  for (let i = 0; i < steps.length; i += 1) {
    const step = steps[i]! * scale;
    steps[i] = Math.min(LARGEST_STEP, Math.max(-LARGEST_STEP, step));
  }
  return steps;
}
