import { type PlotPoint, plotPoint } from '../geometry/points.ts';
import type { Random } from '../trial/repeatableRandom.ts';

/**
 * How points are laid out in the frame, over true ground (not over photo pixels).
 *
 * - regular grid: one random start for the whole grid
 * - jittered grid: one random point in each cell (stratified random)
 * - simple random: every point for itself
 * - transect lines: parallel lines at equal distances with a random start; points at equal distances on each
 *   line, with a   start of its own for each line
 */
export type SamplingDesign =
  | { readonly kind: 'regular-grid' | 'jittered-grid'; readonly columns: number; readonly rows: number }
  | { readonly kind: 'simple-random'; readonly points: number }
  | {
      readonly kind: 'transect-lines';
      readonly lines: number;
      readonly pointsPerLine: number;
      /** The way the lines run: along the frame's top edge, or along its left edge. */
      readonly direction: 'across' | 'down';
    };

/**
 * Width and height that plot positions refer to: millimetres, or 1 and 1 where the frame's size is not known.
 */
export type PlotExtent = readonly [width: number, height: number];

/** More points than anybody calls on one photo: a number beyond it is taken for a mistake. */
export const MOST_POINTS = 10_000;

/** How many points a design asks for. */
export function plannedPoints(design: SamplingDesign): number {
  switch (design.kind) {
    case 'simple-random':
      return design.points;
    case 'transect-lines':
      return design.lines * design.pointsPerLine;
    default:
      return design.columns * design.rows;
  }
}

/**
 * @throws RangeError if a number of the design is not whole or below 1, or there are more than `MOST_POINTS`
 */
export function checkDesign(design: SamplingDesign): void {
  for (const [name, value] of Object.entries(design)) {
    if (name === 'kind' || name === 'direction') continue;
    if (!(Number.isInteger(value) && (value as number) >= 1)) {
      throw new RangeError(`${name} must be a whole number, 1 or more, got ${value}`);
    }
  }
  if (plannedPoints(design) > MOST_POINTS) {
    throw new RangeError(`a design has at most ${MOST_POINTS} points, got ${plannedPoints(design)}`);
  }
}

/**
 * Positions of a design in the frame, each part of the ground equally likely to be hit. Row by row, line by
 * line.
 *
 * @throws RangeError on a design that cannot be, see `checkDesign`
 */
export function designPositions(design: SamplingDesign, extent: PlotExtent, random: Random): PlotPoint[] {
  checkDesign(design);
  const [width, height] = extent;
  switch (design.kind) {
    case 'simple-random':
      return Array.from({ length: design.points }, () => randomPosition(extent, random));
    case 'transect-lines': {
      const { lines, pointsPerLine, direction } = design;
      const lineStart = random();
      return Array.from({ length: lines }, (_, line) => {
        const off = (line + lineStart) / lines;
        const start = random();
        return Array.from({ length: pointsPerLine }, (__, i) => {
          const along = (i + start) / pointsPerLine;
          return direction === 'across'
            ? plotPoint(along * width, off * height)
            : plotPoint(off * width, along * height);
        });
      }).flat();
    }
    default: {
      const { kind, columns, rows } = design;
      const [startX, startY] = [random(), random()];
      const jitter = (start: number) => (kind === 'jittered-grid' ? random() : start);
      return Array.from({ length: columns * rows }, (_, i) => {
        const x = ((i % columns) + jitter(startX)) / columns;
        const y = (Math.floor(i / columns) + jitter(startY)) / rows;
        return plotPoint(x * width, y * height);
      });
    }
  }
}

/** A position with every part of the frame's ground equally likely. */
export function randomPosition([width, height]: PlotExtent, random: Random): PlotPoint {
  const x = random() * width;
  return plotPoint(x, random() * height);
}

/**
 * Least distance of neighbours in a design, in the units of the extent; null for points without a fixed
 * spacing.
 */
export function designSpacing(design: SamplingDesign, [width, height]: PlotExtent): number | null {
  switch (design.kind) {
    case 'regular-grid':
      return Math.min(width / design.columns, height / design.rows);
    case 'transect-lines': {
      const [across, down] = design.direction === 'across' ? [width, height] : [height, width];
      return Math.min(across / design.pointsPerLine, down / design.lines);
    }
    default:
      return null;
  }
}
