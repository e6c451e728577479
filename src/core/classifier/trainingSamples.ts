import type { AnalysisGrid } from '../features/analysisGrid.ts';
import { FEATURE_UNIT, type FeaturePlanes } from '../features/featurePlanes.ts';
import type { MeasuredArea } from '../geometry/measuredArea.ts';
import type { PhotoPoint } from '../geometry/points.ts';
import { ALIKE_WITHIN_CELLS } from './taughtConstants.ts';

/** A line painted on a photo with a round brush; the pixels under it show the class. */
export interface TeachingStroke {
  readonly classId: string;
  /** 0 labels single pixels: (floor x, floor y) of each point. */
  readonly radiusPx: number;
  readonly points: readonly PhotoPoint[];
}

/** A cell of the analysis grid whose class a person gave. */
export interface TrainingSample {
  /** 0.. in the order of the classes. */
  readonly classIndex: number;
  /** Number of the stroke that gave it. */
  readonly stroke: number;
  readonly column: number;
  readonly row: number;
  /** In the order of FEATURES, in units of L*, a*, b*. */
  readonly features: readonly number[];
}

/** What was left out of strokes; nothing else is. */
export type StrokeProblem =
  | { readonly code: 'stroke-outside'; readonly stroke: number; readonly classId: string }
  | {
      readonly code: 'stroke-partly-outside';
      readonly stroke: number;
      readonly classId: string;
      readonly pixels: number;
    }
  | { readonly code: 'stroke-class-unknown'; readonly stroke: number; readonly classId: string }
  | { readonly code: 'cells-contradict'; readonly cells: number };

export interface TrainingReading {
  readonly samples: readonly TrainingSample[];
  readonly problems: readonly StrokeProblem[];
}

/**
 * The cells that strokes label. A cell painted with two classes belongs to none; one painted twice with the same class
 * counts once.
 *
 * @param classIds in label order
 * @param cellsOf where the cells of strokes are kept @default `strokeCells` of this area and grid
 */
export function trainingSamples(
  strokes: readonly TeachingStroke[],
  area: MeasuredArea,
  features: FeaturePlanes,
  classIds: readonly string[],
  cellsOf: (stroke: TeachingStroke) => StrokeCells = (stroke) => strokeCells(stroke, area, features.grid),
): TrainingReading {
  const { widthCells } = features.grid;
  const problems: StrokeProblem[] = [];
  const CONTRADICTED = -1;
  const classOfCell = new Map<number, { classIndex: number; stroke: number }>();
  strokes.forEach((painted, stroke) => {
    const { classId } = painted;
    const classIndex = classIds.indexOf(classId);
    if (classIndex < 0) {
      problems.push({ code: 'stroke-class-unknown', stroke, classId });
      return;
    }
    const { cells, pixelsWithin, pixelsBeyond } = cellsOf(painted);
    for (const cell of cells) {
      const known = classOfCell.get(cell);
      if (!known) classOfCell.set(cell, { classIndex, stroke });
      else if (known.classIndex !== classIndex) known.classIndex = CONTRADICTED;
    }
    if (pixelsWithin === 0) problems.push({ code: 'stroke-outside', stroke, classId });
    else if (pixelsBeyond > 0) {
      problems.push({ code: 'stroke-partly-outside', stroke, classId, pixels: pixelsBeyond });
    }
  });

  const samples: TrainingSample[] = [];
  let contradicted = 0;
  for (const [cell, { classIndex, stroke }] of [...classOfCell].sort(([a], [b]) => a - b)) {
    if (classIndex === CONTRADICTED) {
      contradicted += 1;
      continue;
    }
    const row = Math.floor(cell / widthCells);
    samples.push({
      classIndex,
      stroke,
      column: cell - row * widthCells,
      row,
      features: features.planes.map((plane) => plane[cell]! / FEATURE_UNIT),
    });
  }
  if (contradicted > 0) problems.push({ code: 'cells-contradict', cells: contradicted });
  return { samples, problems };
}

/** How many cells that show different leaves: cells near each other count as one. */
export function independentCells(samples: readonly TrainingSample[]): number {
  const squares = new Set(
    samples.map(
      ({ column, row }) =>
        `${Math.floor(column / ALIKE_WITHIN_CELLS)},${Math.floor(row / ALIKE_WITHIN_CELLS)}`,
    ),
  );
  return squares.size;
}

/** What lies under one stroke. */
export interface StrokeCells {
  /** Numbers of the cells with a measured pixel under the stroke, each once. */
  readonly cells: readonly number[];
  readonly pixelsWithin: number;
  /** Pixels under the stroke that are not measured. */
  readonly pixelsBeyond: number;
}

/** The cells under a stroke: what takes time when strokes are read, and stays the same while a photo is open. */
export function strokeCells(
  { points, radiusPx }: TeachingStroke,
  area: MeasuredArea,
  { factor, widthCells, leftPx, topPx }: AnalysisGrid,
): StrokeCells {
  const cells = new Set<number>();
  let pixelsWithin = 0;
  let pixelsBeyond = 0;
  forEachPixelUnder(points, radiusPx, (x, y) => {
    const isMeasured =
      x >= 0 && y >= 0 && x < area.widthPx && y < area.heightPx && area.inside[y * area.widthPx + x] === 1;
    if (!isMeasured) {
      pixelsBeyond += 1;
      return;
    }
    pixelsWithin += 1;
    cells.add(Math.floor((y - topPx) / factor) * widthCells + Math.floor((x - leftPx) / factor));
  });
  return { cells: [...cells], pixelsWithin, pixelsBeyond };
}

/** More than any photo is wide, so that row and column make one number. */
const ROW = 2 ** 21;

/** Visits each pixel under a stroke once: those whose centre lies within the radius of its line, or those of its points. */
function forEachPixelUnder(
  points: readonly PhotoPoint[],
  radiusPx: number,
  visit: (x: number, y: number) => void,
): void {
  const visited = new Set<number>();
  const visitOnce = (x: number, y: number): void => {
    const key = y * ROW + x;
    if (visited.has(key)) return;
    visited.add(key);
    visit(x, y);
  };
  if (radiusPx === 0) {
    for (const [x, y] of points) visitOnce(Math.floor(x), Math.floor(y));
    return;
  }
  points.forEach(([bx, by], i) => {
    const [ax, ay] = points[Math.max(0, i - 1)]!;
    const [dx, dy] = [bx - ax, by - ay];
    const square = dx * dx + dy * dy;
    visitOnce(Math.floor(bx), Math.floor(by));
    for (let y = Math.floor(Math.min(ay, by) - radiusPx); y <= Math.max(ay, by) + radiusPx; y += 1) {
      for (let x = Math.floor(Math.min(ax, bx) - radiusPx); x <= Math.max(ax, bx) + radiusPx; x += 1) {
        const [px, py] = [x + 0.5 - ax, y + 0.5 - ay];
        const along = square === 0 ? 0 : Math.min(1, Math.max(0, (px * dx + py * dy) / square));
        const [ox, oy] = [px - along * dx, py - along * dy];
        if (ox * ox + oy * oy <= radiusPx * radiusPx) visitOnce(x, y);
      }
    }
  });
}
