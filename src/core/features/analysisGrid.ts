import type { MeasuredArea } from '../geometry/measuredArea.ts';

/**
 * The grid on which a photo is analysed: cells of factor x factor photo pixels over the box of the measured area.
 *
 * Cell edges lie on multiples of the factor counted from the photo's top left corner.
 */
export interface AnalysisGrid {
  /** Side of a cell in photo pixels. */
  readonly factor: number;
  readonly widthCells: number;
  readonly heightCells: number;
  /** Photo pixel at the top left corner of the first cell. */
  readonly leftPx: number;
  readonly topPx: number;
  /** Side of a cell on the ground; null where the scale is not known. */
  readonly millimetresPerCell: number | null;
}

/** Cells are at most this wide on the ground where the scale allows it: about a third of a leaf's width. */
const WIDEST_CELL_MM = 0.9;

/** Without a scale the box of the measured area is analysed with at most this many cells. */
const MOST_CELLS_WITHOUT_SCALE = 1_500_000;

/** With a scale, a large plot seen from far may have more; some 30 bytes a cell are held at a time. */
const MOST_CELLS = 3_000_000;

/** More averaging than this would merge neighbouring leaves on any photo that shows leaves at all. */
const LARGEST_FACTOR = 8;

/** The grid for an area: cells as large as leaves allow, so that noise is averaged and little is computed twice. */
export function analysisGridFor(area: MeasuredArea): AnalysisGrid {
  const { bounds, millimetresPerPixel } = area;
  const pixels = (bounds.right - bounds.left) * (bounds.bottom - bounds.top);
  const factorFor = (cells: number): number => Math.ceil(Math.sqrt(pixels / cells));
  const wanted =
    millimetresPerPixel === null
      ? factorFor(MOST_CELLS_WITHOUT_SCALE)
      : Math.max(Math.floor(WIDEST_CELL_MM / millimetresPerPixel), factorFor(MOST_CELLS));
  return analysisGrid(area, Math.min(LARGEST_FACTOR, Math.max(1, wanted)));
}

/** The grid with a given factor. */
export function analysisGrid(area: MeasuredArea, factor: number): AnalysisGrid {
  const { bounds, millimetresPerPixel } = area;
  const firstColumn = Math.floor(bounds.left / factor);
  const firstRow = Math.floor(bounds.top / factor);
  return {
    factor,
    widthCells: Math.ceil(bounds.right / factor) - firstColumn,
    heightCells: Math.ceil(bounds.bottom / factor) - firstRow,
    leftPx: firstColumn * factor,
    topPx: firstRow * factor,
    millimetresPerCell: millimetresPerPixel === null ? null : millimetresPerPixel * factor,
  };
}
