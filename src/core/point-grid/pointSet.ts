import { type Homography, homographyBetween, invertHomography, mapPoint } from '../geometry/homography.ts';
import type { MeasuredArea } from '../geometry/measuredArea.ts';
import type { PlotFrame } from '../geometry/plotFrame.ts';
import { type PhotoPoint, type PlotPoint, plotPoint, type Quadrilateral } from '../geometry/points.ts';
import { type Random, repeatableRandom, seedFor } from '../trial/repeatableRandom.ts';
import {
  checkDesign,
  designPositions,
  type PlotExtent,
  randomPosition,
  type SamplingDesign,
} from './samplingDesign.ts';

/** A place that is to be called. Points are never removed: one that is given up is replaced by another. */
export interface SamplePoint {
  /** 1.. within the set. */
  readonly id: number;
  /** In the units of the set's extent, so that a moved frame takes the point along. */
  readonly at: PlotPoint;
  /**
   * Transect line, from 0; null in other designs. A point that replaces another counts with that one's line.
   */
  readonly line: number | null;
  /** The point that this one stands in for. */
  readonly replaces: number | null;
}

/** The points of one photo, with all that is needed to draw them again. */
export interface PointSet {
  readonly design: SamplingDesign;
  /** Whole number 0..4294967295. */
  readonly seed: number;
  readonly extent: PlotExtent;
  /** The frame in which the points were drawn. */
  readonly placedIn: Quadrilateral<'photo'>;
  readonly points: readonly SamplePoint[];
  /**
   * Points of the design that fell on what is not measured. Simple random points are drawn again instead, and
   * counted here too.
   */
  readonly leftOut: number;
}

export type PointPlacing =
  | { readonly ok: true; readonly set: PointSet }
  | { readonly ok: false; readonly code: 'nothing-measured' };

/** Draws for one point before the measured area is taken to be empty. */
const MOST_DRAWS = 10_000;

/**
 * Draws the points of a design in a frame, the same again from the same seed.
 *
 * Grids and lines lose the points that fall on ignored ground; simple random points are drawn until their
 * number is reached, which leaves them simple random over the measured ground.
 *
 * @param frame for a photo without one: its whole outline, size null
 * @throws RangeError on a design or seed that cannot be
 */
export function placePoints(
  design: SamplingDesign,
  frame: PlotFrame,
  area: MeasuredArea,
  seed: number,
): PointPlacing {
  checkDesign(design);
  const random = repeatableRandom(seed);
  if (area.measuredPixels === 0) return { ok: false, code: 'nothing-measured' };
  const extent: PlotExtent = frame.sizeMm ?? [1, 1];
  const toPhoto = plotToPhoto(extent, frame.corners);
  const isMeasuredAt = (at: PlotPoint) => isMeasured(area, mapPoint<'plot', 'photo'>(toPhoto, at));
  let leftOut = 0;
  const kept: { readonly at: PlotPoint; readonly line: number | null }[] = [];
  if (design.kind === 'simple-random') {
    for (let i = 0; i < design.points; i += 1) {
      const drawn = drawUntil(extent, random, isMeasuredAt);
      if (!drawn) return { ok: false, code: 'nothing-measured' };
      leftOut += drawn.draws - 1;
      kept.push({ at: drawn.at, line: null });
    }
  } else {
    for (const [index, at] of designPositions(design, extent, random).entries()) {
      if (isMeasuredAt(at)) kept.push({ at, line: lineOf(design, index) });
      else leftOut += 1;
    }
  }
  const points = kept.map(({ at, line }, index) => ({ id: index + 1, at, line, replaces: null }));
  return { ok: true, set: { design, seed, extent, placedIn: frame.corners, points, leftOut } };
}

/** The points that are to be called: those that no other point stands in for. */
export function currentPoints({ points }: PointSet): SamplePoint[] {
  const replaced = new Set(points.map(({ replaces }) => replaces));
  return points.filter(({ id }) => !replaced.has(id));
}

/**
 * Draws new points in place of some, e.g. of those that lie outside since the frame was moved. The old ones
 * stay in the set.
 *
 * Where the frame now holds ground that it did not hold when the points were drawn, the new points fall
 * there, since nothing has been sampled in it; otherwise anywhere in the measured area.
 *
 * @param ids points to replace; those replaced already are left as they are
 */
export function replacePoints(
  set: PointSet,
  ids: Iterable<number>,
  frame: PlotFrame,
  area: MeasuredArea,
): PointPlacing {
  const wanted = new Set(ids);
  const replaced = currentPoints(set).filter(({ id }) => wanted.has(id));
  if (replaced.length === 0) return { ok: true, set };
  if (area.measuredPixels === 0) return { ok: false, code: 'nothing-measured' };
  const random = repeatableRandom(seedFor(set.seed, 'replaced points', String(set.points.length)));
  const toPhoto = plotToPhoto(set.extent, frame.corners);
  const toOldPlot = invertHomography(plotToPhoto(set.extent, set.placedIn));
  const isMeasuredAt = (at: PlotPoint) => isMeasured(area, mapPoint<'plot', 'photo'>(toPhoto, at));
  const isNewGround = (at: PlotPoint) => {
    const [x, y] = mapPoint<'photo', 'plot'>(toOldPlot, mapPoint<'plot', 'photo'>(toPhoto, at));
    return isMeasuredAt(at) && !(x >= 0 && y >= 0 && x < set.extent[0] && y < set.extent[1]);
  };
  const points = [...set.points];
  for (const { id, line } of replaced) {
    const drawn = drawUntil(set.extent, random, isNewGround) ?? drawUntil(set.extent, random, isMeasuredAt);
    if (!drawn) return { ok: false, code: 'nothing-measured' };
    points.push({ id: points.length + 1, at: drawn.at, line, replaces: id });
  }
  return { ok: true, set: { ...set, points } };
}

/** The map from plot positions to pixels of the upright photo. */
export function plotToPhoto([width, height]: PlotExtent, corners: Quadrilateral<'photo'>): Homography {
  const plot: Quadrilateral<'plot'> = [
    plotPoint(0, 0),
    plotPoint(width, 0),
    plotPoint(width, height),
    plotPoint(0, height),
  ];
  return homographyBetween(plot, corners);
}

/** Whether the pixel (floor x, floor y) is measured. */
export function isMeasured({ widthPx, heightPx, inside }: MeasuredArea, [x, y]: PhotoPoint): boolean {
  const [column, row] = [Math.floor(x), Math.floor(y)];
  if (column < 0 || row < 0 || column >= widthPx || row >= heightPx) return false;
  return inside[row * widthPx + column] === 1;
}

const lineOf = (design: SamplingDesign, index: number): number | null =>
  design.kind === 'transect-lines' ? Math.floor(index / design.pointsPerLine) : null;

function drawUntil(
  extent: PlotExtent,
  random: Random,
  isWanted: (at: PlotPoint) => boolean,
): { readonly at: PlotPoint; readonly draws: number } | null {
  for (let draws = 1; draws <= MOST_DRAWS; draws += 1) {
    const at = randomPosition(extent, random);
    if (isWanted(at)) return { at, draws };
  }
  return null;
}
