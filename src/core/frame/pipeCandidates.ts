import { EDGE_CHANNELS, type StripEdges } from './stripEdges.ts';

/** How far a colour steps, in each channel, in usual steps of the picture. */
export type ColourStep = readonly [lightness: number, redGreen: number, blueYellow: number];

/**
 * A straight band with the same colour step on both sides, as a pipe on turf makes it.
 *
 * Its edges are the lines across = `first` + slope * (along - middle) and across = `second` + slope * (along - middle),
 * `middle` being half the strips' height.
 */
export interface PipeCandidate {
  readonly slope: number;
  readonly first: number;
  readonly second: number;
  /** From the surroundings to the pipe, mean over the whole line. */
  readonly step: ColourStep;
  readonly strength: number;
}

/** Lines lean up to 27 degrees from the picture's edges: a frame turned by 20 and seen at a slant. */
const STEEPEST = 0.5;
const SLOPE_STEP = 0.02;
/** Width of a pipe in pixels of the reduced picture. */
const NARROWEST_PX = 4;
const WIDEST_PX = 64;
const KEPT = 20;
/** Mean step an edge needs over the whole picture, in usual steps. A side over a third of it reaches 3 times as much. */
const LEAST_MEAN_STEP = 0.45;

/** The strongest candidates, at most KEPT, no two of nearly the same place. */
export function pipeCandidates(edges: StripEdges): PipeCandidate[] {
  const found: PipeCandidate[] = [];
  const slopes = Math.round(STEEPEST / SLOPE_STEP);
  const padded = paddedSteps(edges);
  for (let k = -slopes; k <= slopes; k += 1) pairsOfSlope(edges, padded, k * SLOPE_STEP, found);
  found.sort((a, b) => b.strength - a.strength);
  const reach = (edges.strips * edges.stripPx) / 2;
  const kept: PipeCandidate[] = [];
  for (const candidate of found) {
    if (kept.every((other) => apart(candidate, other, reach))) kept.push(candidate);
    if (kept.length === KEPT) break;
  }
  return kept;
}

/** Whether two candidates differ in one edge at least; pairs that share one are kept, since one of them is the pipe. */
function apart(a: PipeCandidate, b: PipeCandidate, reach: number): boolean {
  const lean = 0.6 * reach * Math.abs(a.slope - b.slope);
  const near = (p: number, q: number) => Math.abs(p - q) < 5 + lean * 0.5 && lean < 20;
  return !(near(a.first, b.first) && near(a.second, b.second));
}

/** Steps with room beside each strip, so that a strip can be shifted without looking where it ends. */
interface PaddedSteps {
  readonly planes: readonly Float32Array[];
  /** Entries from one strip to the next, and before the first column of each. */
  readonly stride: number;
  readonly pad: number;
}

function paddedSteps({ acrossPx, strips, stripPx, steps }: StripEdges): PaddedSteps {
  const pad = Math.ceil((STEEPEST * strips * stripPx) / 2) + 1;
  const stride = acrossPx + 2 * pad;
  const planes = steps.map((plane) => {
    const padded = new Float32Array(stride * (strips + STRIPS_AT_ONCE));
    for (let strip = 0; strip < strips; strip += 1) {
      padded.set(plane.subarray(strip * acrossPx, (strip + 1) * acrossPx), strip * stride + pad);
    }
    return padded;
  });
  return { planes, stride, pad };
}

/** Adding several strips at a time spares most of the reading and writing of sums; those past the last are 0. */
const STRIPS_AT_ONCE = 4;

/** Adds pairs of opposite edges among the lines of one slope. */
function pairsOfSlope(
  { acrossPx, strips, stripPx }: StripEdges,
  { planes, stride, pad }: PaddedSteps,
  slope: number,
  found: PipeCandidate[],
): void {
  const shiftOf = (strip: number) => Math.round(slope * ((strip + 0.5) * stripPx - (strips * stripPx) / 2));
  const startOf = (strip: number) =>
    strip < strips ? strip * stride + pad + shiftOf(strip) : strips * stride;
  const sums = planes.map((plane) => {
    const sum = new Float32Array(acrossPx);
    for (let strip = 0; strip < strips; strip += STRIPS_AT_ONCE) {
      const [p, q] = [startOf(strip), startOf(strip + 1)];
      const [r, s] = [startOf(strip + 2), startOf(strip + 3)];
      for (let i = 0; i < acrossPx; i += 1) {
        sum[i]! += plane[p + i]! + plane[q + i]! + plane[r + i]! + plane[s + i]!;
      }
    }
    return sum;
  });
  const [lightness, redGreen, blueYellow] = sums as [Float32Array, Float32Array, Float32Array];
  const strength = new Float32Array(acrossPx);
  for (let i = 0; i < acrossPx; i += 1) {
    const [a, b, c] = [lightness[i]!, redGreen[i]!, blueYellow[i]!];
    strength[i] = Math.sqrt(a * a + b * b + c * c) / strips;
  }
  const peaks: number[] = [];
  for (let i = 2; i + 2 < acrossPx; i += 1) {
    const value = strength[i]!;
    if (value < LEAST_MEAN_STEP) continue;
    if (
      value >= strength[i - 1]! &&
      value > strength[i + 1]! &&
      value >= strength[i - 2]! &&
      value > strength[i + 2]!
    )
      peaks.push(i);
  }
  for (let a = 0; a < peaks.length; a += 1) {
    for (let b = a + 1; b < peaks.length; b += 1) {
      const [first, second] = [peaks[a]!, peaks[b]!];
      if (second - first < NARROWEST_PX) continue;
      if (second - first > WIDEST_PX) break;
      let product = 0;
      const step: number[] = [];
      for (let channel = 0; channel < EDGE_CHANNELS; channel += 1) {
        const [up, down] = [sums[channel]![first]! / strips, sums[channel]![second]! / strips];
        product -= up * down;
        step.push((up - down) / 2);
      }
      // opposite steps, and none of them much weaker than the other
      if (product < 0.5 * strength[first]! * strength[second]!) continue;
      found.push({
        slope,
        first,
        second,
        step: step as unknown as ColourStep,
        strength: Math.sqrt(product),
      });
    }
  }
}
