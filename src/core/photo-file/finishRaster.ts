import type { RgbaRaster } from '../raster/rgbaRaster.ts';
import type { SrgbConversion } from './convertToSrgb.ts';
import { convertToSrgb } from './convertToSrgb.ts';
import type { Orientation } from './exifOrientation.ts';
import type { PhotoFileInfo } from './photoFileInfo.ts';

/**
 * What is left to do after a decoder: colours to sRGB, transparent pixels to nothing, the picture
 * upright. The same for page and command line.
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
  return turnUpright(decoded, info.orientation);
}

/** A pixel that lets anything through shows nothing certain: it becomes 0, 0, 0, 0. */
function emptyTransparent(rgba: Uint8ClampedArray): void {
  for (let i = 0; i < rgba.length; i += 4) {
    if (rgba[i + 3] !== 255) rgba.fill(0, i, i + 4);
  }
}

/** Pixels of a square that is turned at once, so that reading across rows stays within the processor's cache. */
const TILE_PX = 32;

/** The raster turned as an orientation asks; itself for 1. @see Exif 2.32, figure 8 (relation of image data) */
export function turnUpright(raster: RgbaRaster, orientation: Orientation): RgbaRaster {
  if (orientation === 1) return raster;
  const { widthPx, heightPx } = raster;
  const swapped = orientation >= 5;
  const [outWidth, outHeight] = swapped ? [heightPx, widthPx] : [widthPx, heightPx];
  // a pixel is one 32-bit number; each step in the turned picture is a step of this many pixels in the stored one
  const across = [2, 3, 7, 8].includes(orientation) ? -1 : 1;
  const down = [3, 4, 6, 7].includes(orientation) ? -widthPx : widthPx;
  const [stepX, stepY] = swapped ? [down, across] : [across, down];
  const start = (across < 0 ? widthPx - 1 : 0) + (down < 0 ? (heightPx - 1) * widthPx : 0);
  const from = new Uint32Array(raster.data.buffer, raster.data.byteOffset, widthPx * heightPx);
  const to = new Uint32Array(widthPx * heightPx);
  for (let top = 0; top < outHeight; top += TILE_PX) {
    const bottom = Math.min(outHeight, top + TILE_PX);
    for (let left = 0; left < outWidth; left += TILE_PX) {
      const right = Math.min(outWidth, left + TILE_PX);
      for (let y = top; y < bottom; y += 1) {
        let source = start + left * stepX + y * stepY;
        for (let x = left; x < right; x += 1) {
          to[y * outWidth + x] = from[source]!;
          source += stepX;
        }
      }
    }
  }
  return { widthPx: outWidth, heightPx: outHeight, data: new Uint8ClampedArray(to.buffer) };
}
