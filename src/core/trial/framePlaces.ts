import { z } from 'zod';
import { LARGEST_SEED, type Random, randomBelow, repeatableRandom, seedFor } from './repeatableRandom.ts';
import type { PlotSize } from './trial.ts';

/** The corner of a plot that places are measured from, seen by a person who stands before row 1 and looks over the map. */
export const PLOT_CORNERS = ['near-left', 'near-right', 'far-left', 'far-right'] as const;

export const framePlanSchema = z.strictObject({
  placesPerPlot: z.int().min(1).max(20),
  /** `fixed`: the same places on every date, so that changes are changes of that turf. `each-date`: drawn anew. */
  draw: z.enum(['fixed', 'each-date']),
  seed: z.int().min(0).max(LARGEST_SEED),
  /** Inner size of the frame; its sides stand along the plot's sides. */
  frameWidthMm: z.number().min(50).max(5000),
  frameLengthMm: z.number().min(50).max(5000),
  /** Least distance of the frame from the edge of the net plot. */
  edgeMm: z.number().min(0).max(5000),
  /** Least gap between two frames of a plot. */
  apartMm: z.number().min(0).max(10_000),
  measuredFrom: z.enum(PLOT_CORNERS),
  /** The corner of the frame that carries the mark, so that photos from the other side line up. */
  markedFrameCorner: z.enum(PLOT_CORNERS),
});
export type FramePlan = z.infer<typeof framePlanSchema>;

/** Where the frame's corner nearest to the named plot corner lies, in metres along the two edges that meet there. */
export interface FramePlace {
  /** 1 .. placesPerPlot */
  readonly place: number;
  /** Along the plot's width from the named corner of the gross plot. */
  readonly acrossM: number;
  /** Along the plot's length from the named corner of the gross plot. */
  readonly alongM: number;
}

export type FramePlaces =
  | { readonly ok: true; readonly places: readonly FramePlace[] }
  | { readonly ok: false; readonly code: 'frame-larger-than-plot' }
  | {
      readonly ok: false;
      readonly code: 'places-do-not-fit';
      readonly asked: number;
      readonly found: number;
    };

/** Places lie on whole centimetres: that is what a tape in the field can do. */
const GRID_MM = 10;
const TRIES_PER_PLACE = 400;
const RESTARTS = 25;

/**
 * Draws places for the frame in one plot: uniform over the ground that is allowed, away from the edges and from each other.
 *
 * The net plot lies in the middle of the gross plot. If a draw gets stuck it starts again; when 25 starts fail, the
 * answer says how many places were found, rather than moving frames closer than was asked.
 */
export function drawFramePlaces(plotSize: PlotSize, plan: FramePlan, random: Random): FramePlaces {
  const across = allowedSteps(plotSize.grossWidthMm, plotSize.netWidthMm, plan.frameWidthMm, plan.edgeMm);
  const along = allowedSteps(plotSize.grossLengthMm, plotSize.netLengthMm, plan.frameLengthMm, plan.edgeMm);
  if (across.count < 1 || along.count < 1) return { ok: false, code: 'frame-larger-than-plot' };
  let found = 0;
  for (let start = 0; start < RESTARTS; start++) {
    const corners: { x: number; y: number }[] = [];
    let tries = TRIES_PER_PLACE * plan.placesPerPlot;
    while (corners.length < plan.placesPerPlot && tries-- > 0) {
      const x = (across.first + randomBelow(across.count, random)) * GRID_MM;
      const y = (along.first + randomBelow(along.count, random)) * GRID_MM;
      const clear = corners.every(
        (other) =>
          Math.abs(other.x - x) >= plan.frameWidthMm + plan.apartMm ||
          Math.abs(other.y - y) >= plan.frameLengthMm + plan.apartMm,
      );
      if (clear) corners.push({ x, y });
    }
    if (corners.length === plan.placesPerPlot) {
      const places = corners.map(({ x, y }, index) => ({
        place: index + 1,
        acrossM: x / 1000,
        alongM: y / 1000,
      }));
      return { ok: true, places };
    }
    found = Math.max(found, corners.length);
  }
  return { ok: false, code: 'places-do-not-fit', asked: plan.placesPerPlot, found };
}

/** Grid steps from the gross plot's edge at which the frame's near side may lie. */
function allowedSteps(grossMm: number, netMm: number, frameMm: number, edgeMm: number) {
  const guardMm = (grossMm - netMm) / 2;
  const first = Math.ceil((guardMm + edgeMm) / GRID_MM);
  const last = Math.floor((grossMm - guardMm - edgeMm - frameMm) / GRID_MM);
  return { first, count: last - first + 1 };
}

/**
 * The places of a plot on a rating date: the same answer every time it is asked, on every machine.
 *
 * @param ratingDate only counts where places are drawn for each date
 */
export function framePlacesOf(
  plot: string,
  ratingDate: string,
  plotSize: PlotSize,
  plan: FramePlan,
): FramePlaces {
  const names = plan.draw === 'fixed' ? [plot] : [plot, ratingDate];
  return drawFramePlaces(plotSize, plan, repeatableRandom(seedFor(plan.seed, 'frame places', ...names)));
}

/**
 * Turns a frame's corners (around the outline, as they appear in a photo) so that the marked corner comes first:
 * photos taken from the other side of the plot then line up, corner for corner.
 *
 * @param marked index of the corner that shows the mark
 */
export function cornersFromMark<Corner>(corners: readonly Corner[], marked: number): Corner[] {
  if (!Number.isInteger(marked) || marked < 0 || marked >= corners.length) {
    throw new RangeError(`the marked corner is one of 0 to ${corners.length - 1}, got ${marked}`);
  }
  return [...corners.slice(marked), ...corners.slice(0, marked)];
}
