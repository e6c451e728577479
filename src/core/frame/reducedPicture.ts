import type { RgbaRaster } from '../raster/rgbaRaster.ts';

/**
 * A photo made smaller by averaging squares of `factor` x `factor` pixels; columns and rows that fill no square are
 * left out. Pixel (x, y) covers photo pixels x * factor to (x + 1) * factor.
 */
export interface ReducedPicture {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly factor: number;
  /** Row-major, index = y * widthPx + x; 0..255. */
  readonly red: Uint8Array;
  readonly green: Uint8Array;
  readonly blue: Uint8Array;
}

/** Sums of 16 x 16 bytes still fit the 16 bits they are given below. */
const LARGEST_FACTOR = 16;

/**
 * Reduces a photo so that its longer side comes near `longSidePx`; a smaller photo stays as it is.
 *
 * Reads pixels as 32-bit numbers with red in the lowest byte, as on every machine that browsers and Node run on.
 */
export function reducePicture(raster: RgbaRaster, longSidePx: number): ReducedPicture {
  const longSide = Math.max(raster.widthPx, raster.heightPx);
  const factor = Math.min(LARGEST_FACTOR, Math.max(1, Math.round(longSide / longSidePx)));
  const widthPx = Math.floor(raster.widthPx / factor);
  const heightPx = Math.floor(raster.heightPx / factor);
  const { buffer, byteOffset } = raster.data;
  const pixels = new Int32Array(buffer, byteOffset, raster.widthPx * raster.heightPx);
  const red = new Uint8Array(widthPx * heightPx);
  const green = new Uint8Array(widthPx * heightPx);
  const blue = new Uint8Array(widthPx * heightPx);
  // sums of a row of squares: red in the low and blue in the high half of a number, green, 8 bits up, apart
  const redBlueSums = new Int32Array(widthPx);
  const greenSums = new Int32Array(widthPx);
  const count = factor * factor;
  for (let y = 0; y < heightPx; y += 1) {
    redBlueSums.fill(0);
    greenSums.fill(0);
    for (let row = y * factor; row < (y + 1) * factor; row += 1) {
      let at = row * raster.widthPx;
      for (let x = 0; x < widthPx; x += 1) {
        let redBlue = 0;
        let greens = 0;
        const end = at + factor;
        // four at a time: the loop's own work would be as much again
        for (; at + 4 <= end; at += 4) {
          const a = pixels[at]!;
          const b = pixels[at + 1]!;
          const c = pixels[at + 2]!;
          const d = pixels[at + 3]!;
          redBlue = (redBlue + (a & 0xff00ff) + (b & 0xff00ff) + (c & 0xff00ff) + (d & 0xff00ff)) | 0;
          greens = (greens + (a & 0xff00) + (b & 0xff00) + (c & 0xff00) + (d & 0xff00)) | 0;
        }
        for (; at < end; at += 1) {
          const pixel = pixels[at]!;
          redBlue += pixel & 0xff00ff;
          greens += pixel & 0xff00;
        }
        redBlueSums[x] = (redBlueSums[x]! + redBlue) | 0;
        greenSums[x] = (greenSums[x]! + greens) | 0;
      }
    }
    for (let x = 0; x < widthPx; x += 1) {
      const i = y * widthPx + x;
      red[i] = (redBlueSums[x]! & 0xffff) / count + 0.5;
      green[i] = (greenSums[x]! >>> 8) / count + 0.5;
      blue[i] = (redBlueSums[x]! >>> 16) / count + 0.5;
    }
  }
  return { widthPx, heightPx, factor, red, green, blue };
}
