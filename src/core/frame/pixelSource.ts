import type { RgbaRaster } from '../raster/rgbaRaster.ts';
import type { ReducedPicture } from './reducedPicture.ts';

/** Red, green and blue of single pixels: the same for a photo and for its reduced picture. */
export interface PixelSource {
  readonly widthPx: number;
  readonly heightPx: number;
  /** Index of the first pixel's value in each array, and the distance between pixels. */
  readonly red: Uint8Array | Uint8ClampedArray;
  readonly green: Uint8Array | Uint8ClampedArray;
  readonly blue: Uint8Array | Uint8ClampedArray;
  readonly stride: number;
}

export const sourceOfReduced = ({ widthPx, heightPx, red, green, blue }: ReducedPicture): PixelSource => ({
  widthPx,
  heightPx,
  red,
  green,
  blue,
  stride: 1,
});

export const sourceOfPhoto = ({ widthPx, heightPx, data }: RgbaRaster): PixelSource => ({
  widthPx,
  heightPx,
  red: data,
  green: data.subarray(1),
  blue: data.subarray(2),
  stride: 4,
});
