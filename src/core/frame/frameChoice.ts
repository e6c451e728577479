import { polygonAreaPx } from '../geometry/plotFrame.ts';
import { type PhotoPoint, photoPoint, type Quadrilateral } from '../geometry/points.ts';
import { type ColourStep, type PipeCandidate, pipeCandidates } from './pipeCandidates.ts';
import type { StripEdges } from './stripEdges.ts';

/** Four pipe candidates that together look like a frame; points are pixels of the reduced picture. */
export interface FrameChoice {
  /** Inner corners. */
  readonly corners: Quadrilateral<'photo'>;
  /** Width of the pipe at the top, right, bottom and left side. */
  readonly pipePx: readonly [number, number, number, number];
  /** Share of each side along which both edges of the pipe are seen, in the same order. */
  readonly seen: readonly [number, number, number, number];
  readonly score: number;
}

/** Steps across lines that run down the picture and across it. */
interface PipeLines {
  readonly down: StripEdges;
  readonly across: StripEdges;
}

/** A candidate with what every frame that may contain it needs. */
interface PipeLine extends PipeCandidate {
  readonly widthPx: number;
  readonly stripPx: number;
  readonly seen: Uint16Array;
}

/** Sides of a frame are at least this share of the picture's shorter side. */
const SHORTEST_SIDE = 0.22;
/** Opposite sides differ by perspective, neighbours by the frame's shape as well. */
const OPPOSITE_RATIO = 1.7;
const NEIGHBOUR_RATIO = 2.2;
/** Cosine between the colour steps of two sides: light on the four sides differs, the pipe is the same. */
const LEAST_LIKENESS = 0.6;
/** A strip shows an edge from this many usual steps on, looked for this near the line. */
const SEEN_STEP = 1.6;
const SEARCH_PX = 2;

/** Every plausible frame, best first. */
export function frameChoices(down: StripEdges, across: StripEdges): FrameChoice[] {
  const choices: FrameChoice[] = [];
  const shortest = SHORTEST_SIDE * Math.min(down.acrossPx, across.acrossPx);
  const pairsDown = oppositePairs(pipeLines(down), shortest);
  const pairsAcross = oppositePairs(pipeLines(across), shortest);
  for (const [left, right] of pairsDown) {
    for (const [top, bottom] of pairsAcross) {
      if (!alike([top, right, bottom, left])) continue;
      const corners = innerCorners({ down, across }, top, right, bottom, left);
      if (!plausibleShape(corners, shortest)) continue;
      const [topLeft, topRight, bottomRight, bottomLeft] = corners;
      const sides = [
        seenAlong(top, topLeft[0], topRight[0]),
        seenAlong(right, topRight[1], bottomRight[1]),
        seenAlong(bottom, bottomLeft[0], bottomRight[0]),
        seenAlong(left, topLeft[1], bottomLeft[1]),
      ] as const;
      const score = sides.reduce((sum, side) => sum + (side.within - 0.6 * side.beyond), 0) / 4;
      const pipePx = [top, right, bottom, left].map(
        (pipe) => pipe.widthPx,
      ) as unknown as FrameChoice['pipePx'];
      const seen = sides.map((side) => side.within) as unknown as FrameChoice['seen'];
      choices.push({ corners, pipePx, seen, score: score - 0.15 * unevenness(pipePx) });
    }
  }
  return choices.sort((a, b) => b.score - a.score);
}

function pipeLines(edges: StripEdges): PipeLine[] {
  return pipeCandidates(edges).map((pipe) => ({
    ...pipe,
    widthPx: (pipe.second - pipe.first) / Math.sqrt(1 + pipe.slope * pipe.slope),
    stripPx: edges.stripPx,
    seen: countSeen(edges, pipe),
  }));
}

/** 0 where all four pipes are equally wide, 1 where one is twice as wide as another. */
function unevenness(widths: readonly number[]): number {
  return Math.log2(Math.max(...widths) / Math.min(...widths));
}

function oppositePairs(pipes: readonly PipeLine[], shortest: number): [PipeLine, PipeLine][] {
  const pairs: [PipeLine, PipeLine][] = [];
  for (const a of pipes) {
    for (const b of pipes) {
      if (b.first - a.second >= shortest && cosine(a.step, b.step) >= LEAST_LIKENESS) pairs.push([a, b]);
    }
  }
  return pairs;
}

function alike(pipes: readonly PipeCandidate[]): boolean {
  return pipes.every((a, i) => pipes.every((b, k) => k <= i || cosine(a.step, b.step) >= LEAST_LIKENESS));
}

function cosine(a: ColourStep, b: ColourStep): number {
  return (a[0] * b[0] + a[1] * b[1] + a[2] * b[2]) / (length(a) * length(b));
}

const length = ([a, b, c]: ColourStep): number => Math.sqrt(a * a + b * b + c * c);

function innerCorners(
  { down, across }: PipeLines,
  top: PipeCandidate,
  right: PipeCandidate,
  bottom: PipeCandidate,
  left: PipeCandidate,
): Quadrilateral<'photo'> {
  const middleY = (down.strips * down.stripPx) / 2;
  const middleX = (across.strips * across.stripPx) / 2;
  /** x = x0 + a * y and y = y0 + b * x. */
  const crossing = (x0: number, a: number, y0: number, b: number): PhotoPoint => {
    const x = (x0 + a * y0) / (1 - a * b);
    return photoPoint(x, y0 + b * x);
  };
  const downLine = (edge: number, slope: number) => [edge - slope * middleY, slope] as const;
  const acrossLine = (edge: number, slope: number) => [edge - slope * middleX, slope] as const;
  const l = downLine(left.second, left.slope);
  const r = downLine(right.first, right.slope);
  const t = acrossLine(top.second, top.slope);
  const b = acrossLine(bottom.first, bottom.slope);
  return [crossing(...l, ...t), crossing(...r, ...t), crossing(...r, ...b), crossing(...l, ...b)];
}

function plausibleShape(corners: Quadrilateral<'photo'>, shortest: number): boolean {
  const sides = corners.map(([x, y], i) => {
    const [u, v] = corners[(i + 1) % 4]!;
    return Math.hypot(u - x, v - y);
  }) as [number, number, number, number];
  if (Math.min(...sides) < shortest) return false;
  const ratio = (a: number, b: number) => Math.max(a, b) / Math.min(a, b);
  if (ratio(sides[0], sides[2]) > OPPOSITE_RATIO || ratio(sides[1], sides[3]) > OPPOSITE_RATIO) return false;
  if (ratio(sides[0] + sides[2], sides[1] + sides[3]) > NEIGHBOUR_RATIO) return false;
  return polygonAreaPx(corners) > 0.6 * Math.min(...sides) ** 2;
}

/** For a pipe, how many strips up to each show both of its edges; one entry more than there are strips. */
function countSeen({ acrossPx, strips, stripPx, steps }: StripEdges, pipe: PipeCandidate): Uint16Array {
  const { slope, first, second, step } = pipe;
  const [lightness, redGreen, blueYellow] = steps as [Float32Array, Float32Array, Float32Array];
  const [a, b, c] = step.map((value) => value / length(step)) as [number, number, number];
  const shows = (row: number, column: number, sign: number): boolean => {
    const end = Math.min(acrossPx - 1, column + SEARCH_PX);
    for (let i = Math.max(0, column - SEARCH_PX); i <= end; i += 1) {
      const value = a * lightness[row + i]! + b * redGreen[row + i]! + c * blueYellow[row + i]!;
      if (sign * value >= SEEN_STEP) return true;
    }
    return false;
  };
  const seen = new Uint16Array(strips + 1);
  for (let strip = 0; strip < strips; strip += 1) {
    const shift = slope * ((strip + 0.5) * stripPx - (strips * stripPx) / 2);
    const row = strip * acrossPx;
    const both = shows(row, Math.round(first + shift), 1) && shows(row, Math.round(second + shift), -1);
    seen[strip + 1] = seen[strip]! + (both ? 1 : 0);
  }
  return seen;
}

/** Shares of strips that show the pipe, between two corners and in the stretches beyond them; 0 where there are none. */
function seenAlong(line: PipeLine, from: number, to: number): { within: number; beyond: number } {
  const { seen, stripPx, widthPx } = line;
  const strips = seen.length - 1;
  const strip = (along: number) => Math.min(strips, Math.max(0, Math.round(along / stripPx)));
  const gap = 1.5 * widthPx + stripPx;
  const reach = Math.max(gap, 0.3 * (to - from));
  const [a, b] = [strip(from), strip(to)];
  const [before, beforeEnd] = [strip(from - reach), strip(from - gap)];
  const [after, afterEnd] = [strip(to + gap), strip(to + reach)];
  const beyond = beforeEnd - before + afterEnd - after;
  const seenBeyond = seen[beforeEnd]! - seen[before]! + seen[afterEnd]! - seen[after]!;
  return {
    within: b > a ? (seen[b]! - seen[a]!) / (b - a) : 0,
    beyond: beyond > 0 ? seenBeyond / beyond : 0,
  };
}
