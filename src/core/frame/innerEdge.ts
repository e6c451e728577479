import type { PhotoPoint } from '../geometry/points.ts';
import type { PixelSource } from './pixelSource.ts';
import { type ProfileRange, type SideProfile, sideProfiles } from './sideProfile.ts';

/** A side of the frame, fitted: distances are from the line that was given, outward positive. */
export interface InnerEdge {
  readonly from: PhotoPoint;
  readonly to: PhotoPoint;
  /** Share of the side's stretches that lie on the fitted line. */
  readonly onLine: number;
  /** Root mean square of their distances from it. */
  readonly scatterPx: number;
  /** How far the pipe's lightness or colour is from the turf's, in levels of 0..255; median of the stretches. */
  readonly contrast: number;
}

export interface InnerEdgeOptions {
  /** Width of the pipe in pixels of the source. */
  readonly pipePx: number;
  /** How far inward of the given line the edge may be, and how far outward. */
  readonly inwardPx: number;
  readonly outwardPx: number;
  readonly stepPx: number;
  /** Points this near a line lie on it. */
  readonly tolerancePx: number;
  /** The innermost step counts that is this share of the largest: the shaded side of a pipe steps twice. */
  readonly peakShare: number;
  /** Whether steps are taken over five profile values, else over three: surer, but drawn towards the pipe. */
  readonly wide: boolean;
}

const STRETCHES = 20;
/** A stretch with a step below this share of the side's median shows no edge: something covers it. */
const FAINT_SHARE = 0.3;
const FEWEST_STRETCHES = 5;

/**
 * Fits the inner edge of one side near a given line.
 *
 * In each stretch of the side, the edge is where the median colour steps from turf to pipe, seen from the inside; a line
 * through most of the stretches is the side.
 *
 * @returns null where too few stretches show an edge
 */
export function fitInnerEdge(
  source: PixelSource,
  from: PhotoPoint,
  to: PhotoPoint,
  options: InnerEdgeOptions,
): InnerEdge | null {
  const { pipePx, inwardPx, outwardPx, stepPx, tolerancePx } = options;
  // room for the turf's own colour inside and the pipe's middle outside
  const firstPx = -inwardPx - 0.8 * pipePx;
  const count = Math.ceil((outwardPx + 0.5 * pipePx - firstPx) / stepPx) + 1;
  const range = { firstPx, stepPx, count };
  const profiles = sideProfiles(source, from, to, STRETCHES, range);
  if (profiles.length < FEWEST_STRETCHES) return null;
  const edges = profiles.map((profile) => stepOutward(profile, range, options));
  const sizes = edges.map(({ size }) => size).sort((a, b) => a - b);
  const usual = sizes[sizes.length >> 1]!;
  const points = edges
    .map(({ outPx, size }, i) => ({ along: profiles[i]!.alongPx, out: outPx, size }))
    .filter(({ size }) => size > FAINT_SHARE * usual && size > 0);
  if (points.length < FEWEST_STRETCHES) return null;
  const line = lineThroughMost(points, tolerancePx);
  const lengthPx = Math.hypot(to[0] - from[0], to[1] - from[1]);
  const [nx, ny] = [(to[1] - from[1]) / lengthPx, -(to[0] - from[0]) / lengthPx];
  const end = line.start + line.lean * lengthPx;
  return {
    from: [from[0] + nx * line.start, from[1] + ny * line.start] as unknown as PhotoPoint,
    to: [to[0] + nx * end, to[1] + ny * end] as unknown as PhotoPoint,
    onLine: line.inliers / STRETCHES,
    scatterPx: line.scatterPx,
    contrast: medianOf(Float32Array.from(edges, ({ contrast }) => contrast)),
  };
}

/** Where the colour steps from the inside's to the pipe's, and how far. */
function stepOutward(
  { channels }: SideProfile,
  { firstPx, stepPx, count }: ProfileRange,
  { pipePx, inwardPx, outwardPx, peakShare, wide }: InnerEdgeOptions,
): { outPx: number; size: number; contrast: number } {
  const index = (px: number) => Math.min(count - 1, Math.max(0, Math.round((px - firstPx) / stepPx)));
  const inside = index(-inwardPx);
  const differences = channels.map((channel) => {
    const turf = medianOf(channel.subarray(0, Math.max(1, inside)));
    const pipe = medianOf(channel.subarray(index(0.3 * pipePx), index(outwardPx + 0.5 * pipePx) + 1));
    return pipe - turf;
  });
  const largest = Math.max(...differences.map(Math.abs)) || 1;
  // steps towards the pipe's colour only: a pipe's shadow on the turf steps the other way
  const [a, b, c] = differences.map((difference) => difference / largest) as [number, number, number];
  const [lightness, redGreen, blueYellow] = channels;
  const flank = wide ? 0.5 : 0;
  const steps = new Float32Array(count);
  const last = Math.min(count - 3, index(outwardPx));
  for (let i = Math.max(2, inside); i <= last; i += 1) {
    const step = (plane: Float32Array) =>
      plane[i + 1]! - plane[i - 1]! + flank * (plane[i + 2]! - plane[i - 2]!);
    steps[i] = Math.max(0, a * step(lightness) + b * step(redGreen) + c * step(blueYellow));
  }
  const most = Math.max(...steps);
  let peak = steps.findIndex((step) => step >= peakShare * most);
  while (peak + 1 < count && steps[peak + 1]! > steps[peak]!) peak += 1;
  if (most <= 0) return { outPx: 0, size: 0, contrast: 0 };
  let [weights, moments] = [0, 0];
  const reach = wide ? 2 : 1;
  for (let i = Math.max(0, peak - reach); i <= Math.min(count - 1, peak + reach); i += 1) {
    weights += steps[i]!;
    moments += i * steps[i]!;
  }
  return { outPx: firstPx + stepPx * (moments / weights), size: steps[peak]!, contrast: largest };
}

const medianOf = (values: Float32Array): number => values.slice().sort()[values.length >> 1]!;

interface EdgePoint {
  readonly along: number;
  readonly out: number;
}

/** out = start + lean * along through as many points as lie within the tolerance, least squares on those. */
function lineThroughMost(points: readonly EdgePoint[], tolerancePx: number) {
  let best: readonly EdgePoint[] = [];
  let bestSpread = Number.POSITIVE_INFINITY;
  for (let a = 0; a < points.length; a += 1) {
    for (let b = a + 2; b < points.length; b += 1) {
      const [p, q] = [points[a]!, points[b]!];
      const lean = (q.out - p.out) / (q.along - p.along);
      const distance = ({ along, out }: EdgePoint) => Math.abs(out - p.out - lean * (along - p.along));
      const near = points.filter((point) => distance(point) <= tolerancePx);
      if (near.length < best.length) continue;
      const spread = near.reduce((sum, point) => sum + distance(point), 0);
      if (near.length > best.length || spread < bestSpread) [best, bestSpread] = [near, spread];
    }
  }
  const n = best.length;
  const meanAlong = best.reduce((sum, { along }) => sum + along, 0) / n;
  const meanOut = best.reduce((sum, { out }) => sum + out, 0) / n;
  let [products, squares] = [0, 0];
  for (const { along, out } of best) {
    products += (along - meanAlong) * (out - meanOut);
    squares += (along - meanAlong) ** 2;
  }
  const lean = squares > 0 ? products / squares : 0;
  const start = meanOut - lean * meanAlong;
  const scatterPx = Math.sqrt(
    best.reduce((sum, { along, out }) => sum + (out - start - lean * along) ** 2, 0) / n,
  );
  return { start, lean, inliers: n, scatterPx };
}
