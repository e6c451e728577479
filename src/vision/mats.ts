import type { RgbaRaster } from '../core/raster/rgbaRaster.ts';
import type { OpenCv } from './loadOpenCv.ts';

/** Anything of opencv.js that holds memory of the wasm heap. */
interface Deletable {
  delete(): void;
}

/**
 * Runs a piece of OpenCV work, frees every Mat it kept, and turns thrown numbers into Errors.
 *
 * opencv.js throws the address of a C++ exception as a plain number; its heap never shrinks, so each Mat
 * must be deleted whatever happens.
 *
 * @param work gets `keep`, which remembers an object for deletion and returns it
 * @throws Error with OpenCV's own message
 */
export function withMats<Result>(
  cv: OpenCv,
  work: (keep: <M extends Deletable>(mat: M) => M) => Result,
): Result {
  const kept: Deletable[] = [];
  try {
    return work((mat) => {
      kept.push(mat);
      return mat;
    });
  } catch (thrown) {
    if (typeof thrown !== 'number') throw thrown;
    throw new Error(`OpenCV: ${cv.exceptionFromPtr(thrown).msg}`, { cause: thrown });
  } finally {
    for (const mat of kept) mat.delete();
  }
}

/** A Mat of 4 x 8 bits with the raster's pixels; the caller deletes it. */
export function matOf(cv: OpenCv, raster: RgbaRaster) {
  const mat = new cv.Mat(raster.heightPx, raster.widthPx, cv.CV_8UC4);
  mat.data.set(raster.data);
  return mat;
}
