import type { RgbaRaster } from '../raster/rgbaRaster.ts';
import type { PhotoProblem } from './photoProblem.ts';

/** Pixels of a photo file, or why it gives none. */
export type DecodeResult =
  | { readonly ok: true; readonly raster: RgbaRaster }
  | { readonly ok: false; readonly problem: PhotoProblem };
