import type { Quadrilateral } from '../core/geometry/points.ts';
import type { RgbaRaster } from '../core/raster/rgbaRaster.ts';
import type { OpenCv } from './loadOpenCv.ts';
import { matOf, withMats } from './mats.ts';

/**
 * The ground inside a frame as if photographed from straight above: for looking and for placing points, never for
 * measuring, which stays in the pixels of the photo.
 *
 * @param corners of the frame in the photo
 * @param widthPx,heightPx size of the view; its proportions should be the frame's
 * @param smooth interpolate (a photo) or take the nearest pixel (a picture of labels)
 */
export function rectify(
  cv: OpenCv,
  raster: RgbaRaster,
  corners: Quadrilateral<'photo'>,
  { widthPx, heightPx, smooth }: { widthPx: number; heightPx: number; smooth: boolean },
): RgbaRaster {
  return withMats(cv, (keep) => {
    const source = keep(matOf(cv, raster));
    // OpenCV counts from the centre of the first pixel, we from its corner
    const from = keep(
      cv.matFromArray(
        4,
        1,
        cv.CV_32FC2,
        corners.flatMap(([x, y]) => [x - 0.5, y - 0.5]),
      ),
    );
    const [right, bottom] = [widthPx - 0.5, heightPx - 0.5];
    const to = keep(
      cv.matFromArray(4, 1, cv.CV_32FC2, [-0.5, -0.5, right, -0.5, right, bottom, -0.5, bottom]),
    );
    const map = keep(cv.getPerspectiveTransform(from, to));
    const view = keep(new cv.Mat());
    const interpolation = smooth ? cv.INTER_LINEAR : cv.INTER_NEAREST;
    cv.warpPerspective(source, view, map, new cv.Size(widthPx, heightPx), interpolation, cv.BORDER_CONSTANT);
    return { widthPx, heightPx, data: new Uint8ClampedArray(view.data) };
  });
}
