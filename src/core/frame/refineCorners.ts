import { type PhotoPoint, photoPoint, type Quadrilateral } from '../geometry/points.ts';
import type { RgbaRaster } from '../raster/rgbaRaster.ts';
import type { FrameChoice } from './frameChoice.ts';
import { fitInnerEdge, type InnerEdge, type InnerEdgeOptions } from './innerEdge.ts';
import { type PixelSource, sourceOfPhoto, sourceOfReduced } from './pixelSource.ts';
import type { ReducedPicture } from './reducedPicture.ts';

/** A frame fitted at the photo's full resolution. */
export interface RefinedFrame {
  /** Inner corners in pixels of the photo. */
  readonly corners: Quadrilateral<'photo'>;
  /** How well each side is known, top, right, bottom, left; null where no edge could be fitted. */
  readonly sides: readonly (InnerEdge | null)[];
}

/** The line found by strips may be this far off towards the inside, in pixels of the reduced picture. */
const SEARCH_PX = 6;
/** Full resolution is looked at this near the line found in the reduced picture, in its pixels. */
const CLOSE_PX = 2.5;

/** Moves the sides of a choice onto the pipe's inner edge: roughly in the reduced picture, then in the photo itself. */
export function refineCorners(photo: RgbaRaster, reduced: ReducedPicture, choice: FrameChoice): RefinedFrame {
  const { factor } = reduced;
  const widest = Math.max(...choice.pipePx);
  const rough = fitSides(sourceOfReduced(reduced), choice.corners, (side) => {
    const pipePx = choice.pipePx[side]!;
    // where a side looks narrower than the others, its shaded half may have been taken for turf
    const inwardPx = SEARCH_PX + Math.min(widest - pipePx, pipePx);
    return {
      pipePx,
      inwardPx,
      outwardPx: 0.45 * pipePx,
      stepPx: 1,
      tolerancePx: 1.5,
      peakShare: 0.4,
      wide: true,
    };
  });
  const scaled = rough.corners.map(([x, y]) => photoPoint(x * factor, y * factor));
  return fitSides(sourceOfPhoto(photo), scaled as unknown as Quadrilateral<'photo'>, (side) => ({
    pipePx: choice.pipePx[side]! * factor,
    inwardPx: CLOSE_PX * factor,
    outwardPx: CLOSE_PX * factor,
    stepPx: 1 + (factor >> 2),
    tolerancePx: Math.max(1, factor / 2),
    peakShare: 0.7,
    wide: false,
  }));
}

function fitSides(
  source: PixelSource,
  corners: Quadrilateral<'photo'>,
  optionsOf: (side: number) => InnerEdgeOptions,
): RefinedFrame {
  const sides = corners.map((from, i) => fitInnerEdge(source, from, corners[(i + 1) % 4]!, optionsOf(i)));
  const line = (i: number) => sides[i] ?? { from: corners[i]!, to: corners[(i + 1) % 4]! };
  const fitted = corners.map((_, i) => crossing(line((i + 3) % 4), line(i)));
  return { corners: fitted as unknown as Quadrilateral<'photo'>, sides };
}

interface Line {
  readonly from: PhotoPoint;
  readonly to: PhotoPoint;
}

/** Where two lines cross; the end of the first where they are parallel. */
function crossing(a: Line, b: Line): PhotoPoint {
  const [ax, ay] = [a.to[0] - a.from[0], a.to[1] - a.from[1]];
  const [bx, by] = [b.to[0] - b.from[0], b.to[1] - b.from[1]];
  const area = ax * by - ay * bx;
  if (area === 0) return a.to;
  const t = ((b.from[0] - a.from[0]) * by - (b.from[1] - a.from[1]) * bx) / area;
  return photoPoint(a.from[0] + t * ax, a.from[1] + t * ay);
}
