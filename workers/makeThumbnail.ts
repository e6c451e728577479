import type { RgbaRaster } from '../src/core/raster/rgbaRaster.ts';
import type { Thumbnail } from './measureApi.ts';

/** Samples along each side of the square that one thumbnail pixel stands for. */
const SAMPLES = 4;
const JPEG_QUALITY = 0.8;

/** A small JPEG of a photo for lists; never larger than the photo. */
export async function makeThumbnail(raster: RgbaRaster, longerSidePx: number): Promise<Thumbnail> {
  const { widthPx: fullWidth, heightPx: fullHeight } = raster;
  const scale = Math.max(1, fullWidth / longerSidePx, fullHeight / longerSidePx);
  const widthPx = Math.max(1, Math.round(fullWidth / scale));
  const heightPx = Math.max(1, Math.round(fullHeight / scale));
  const canvas = new OffscreenCanvas(widthPx, heightPx);
  const context = canvas.getContext('2d');
  if (!context) throw new Error(`no canvas of ${widthPx} x ${heightPx} pixels`);
  context.putImageData(shrink(raster, widthPx, heightPx), 0, 0);
  const jpeg = await canvas.convertToBlob({ type: 'image/jpeg', quality: JPEG_QUALITY });
  return { widthPx, heightPx, jpeg: await jpeg.arrayBuffer() };
}

/** Means of a few samples, which is good enough to recognise a plot by and reads a tenth of the pixels. */
function shrink({ data, ...full }: RgbaRaster, widthPx: number, heightPx: number): ImageData {
  const small = new ImageData(widthPx, heightPx);
  const columns = Uint32Array.from(
    { length: widthPx * SAMPLES },
    (_, i) => 4 * Math.floor(((i + 0.5) * full.widthPx) / (widthPx * SAMPLES)),
  );
  const samples = SAMPLES * SAMPLES;
  for (let y = 0; y < heightPx; y += 1) {
    for (let x = 0; x < widthPx; x += 1) {
      let red = 0;
      let green = 0;
      let blue = 0;
      for (let j = 0; j < SAMPLES; j += 1) {
        const row = Math.floor(((y * SAMPLES + j + 0.5) * full.heightPx) / (heightPx * SAMPLES));
        for (let i = 0; i < SAMPLES; i += 1) {
          const at = 4 * row * full.widthPx + columns[x * SAMPLES + i]!;
          red += data[at]!;
          green += data[at + 1]!;
          blue += data[at + 2]!;
        }
      }
      small.data.set([red / samples, green / samples, blue / samples, 255], 4 * (y * widthPx + x));
    }
  }
  return small;
}
