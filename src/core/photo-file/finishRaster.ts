import type { RgbaRaster } from '../raster/rgbaRaster.ts';
import type { SrgbConversion } from './convertToSrgb.ts';
import { convertToSrgb } from './convertToSrgb.ts';
import type { Orientation } from './exifOrientation.ts';
import type { PhotoFileInfo } from './photoFileInfo.ts';

/**
 * What is left to do after a decoder: colours to sRGB, transparent pixels to nothing, the turn that the decoder
 * did not make. The same for page and command line.
 *
 * @param decoded its pixels are changed
 * @param conversion null where the photo is in sRGB
 */
export function finishRaster(
  decoded: RgbaRaster,
  info: PhotoFileInfo,
  conversion: SrgbConversion | null,
): RgbaRaster {
  if (conversion) convertToSrgb(decoded.data, conversion);
  if (info.hasAlpha) emptyTransparent(decoded.data);
  return turnUpright(decoded, info.orientationLeft);
}

/** A pixel that lets anything through shows nothing certain: it becomes 0, 0, 0, 0. */
function emptyTransparent(rgba: Uint8ClampedArray): void {
  for (let i = 0; i < rgba.length; i += 4) {
    if (rgba[i + 3] !== 255) rgba.fill(0, i, i + 4);
  }
}

/** The raster turned as an orientation asks; itself for 1. @see Exif 2.32, figure 8 (relation of image data) */
export function turnUpright(raster: RgbaRaster, orientation: Orientation): RgbaRaster {
  if (orientation === 1) return raster;
  const { widthPx, heightPx } = raster;
  const swapped = orientation >= 5;
  const [outWidth, outHeight] = swapped ? [heightPx, widthPx] : [widthPx, heightPx];
  const from = new Uint32Array(raster.data.buffer, raster.data.byteOffset, widthPx * heightPx);
  const to = new Uint32Array(widthPx * heightPx);
  const fromRight = [2, 3, 7, 8].includes(orientation);
  const fromBottom = [3, 4, 6, 7].includes(orientation);
  for (let y = 0; y < outHeight; y += 1) {
    for (let x = 0; x < outWidth; x += 1) {
      const [across, down] = swapped ? [y, x] : [x, y];
      const column = fromRight ? widthPx - 1 - across : across;
      const row = fromBottom ? heightPx - 1 - down : down;
      to[y * outWidth + x] = from[row * widthPx + column]!;
    }
  }
  return { widthPx: outWidth, heightPx: outHeight, data: new Uint8ClampedArray(to.buffer) };
}
