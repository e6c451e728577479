import type { PixelBox } from '../src/core/geometry/pixelBox.ts';
import { boxOfPhoto, clippedBox } from '../src/core/geometry/pixelBox.ts';
import type { DecodeResult } from '../src/core/photo-file/decodeResult.ts';
import { finishRaster } from '../src/core/photo-file/finishRaster.ts';
import { inspectPhotoFile } from '../src/core/photo-file/inspectPhotoFile.ts';
import type { PhotoFileInfo } from '../src/core/photo-file/photoFileInfo.ts';
import { settleColour } from '../src/core/photo-file/settleColour.ts';
import type { RgbaRaster } from '../src/core/raster/rgbaRaster.ts';

/** How long the browser's own decoding took, and reading its pixels back and finishing them. */
export interface DecodeTimings {
  readonly decodeMs: number;
  readonly readBackMs: number;
}

type TimedResult =
  | (Extract<DecodeResult, { ok: true }> & { readonly timings: DecodeTimings })
  | Extract<DecodeResult, { ok: false }>;

/** Some browsers refuse a canvas above 16.7 million pixels; larger photos are read back in bands. */
const LARGEST_CANVAS_PX = 1 << 24;
const BAND_PX = 1 << 22;

/**
 * A photo file to upright sRGB pixels: the same bytes as `decodePhoto` of the command line (tests/parity).
 *
 * @param wanted a box of the upright photo; pixels outside it may be left 0, which spares half of the reading back
 */
export async function decodePhoto(
  bytes: Uint8Array<ArrayBuffer>,
  wanted: PixelBox | null = null,
): Promise<TimedResult> {
  const inspection = inspectPhotoFile(bytes);
  if (!inspection.ok) return inspection;
  return decodePicture(inspection.info, wanted);
}

/** The pixels of a file that was looked at already. */
export async function decodePicture(
  info: PhotoFileInfo,
  wanted: PixelBox | null = null,
): Promise<TimedResult> {
  const colour = await settleColour(info, inflate);
  if (!colour.ok) return colour;

  const started = performance.now();
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(new Blob(info.pictureParts as Uint8Array<ArrayBuffer>[]));
  } catch (error) {
    if (info.kind === 'heic') return { ok: false, problem: { code: 'heic-not-decodable' } };
    return { ok: false, problem: { code: 'damaged', detail: (error as Error).message } };
  }
  const decoded = performance.now();
  let raster: RgbaRaster;
  try {
    // the box is upright, the bitmap is not yet: one that must be turned is read whole
    const box = info.orientation === 1 ? wanted : null;
    raster = finishRaster(readBack(bitmap, box), info, colour.conversion);
  } finally {
    bitmap.close();
  }
  const timings = { decodeMs: decoded - started, readBackMs: performance.now() - decoded };
  return { ok: true, raster, timings };
}

function readBack(bitmap: ImageBitmap, wanted: PixelBox | null): RgbaRaster {
  const size = { widthPx: bitmap.width, heightPx: bitmap.height };
  const { left, top, right, bottom } = wanted ? clippedBox(wanted, size) : boxOfPhoto(size);
  const width = right - left;
  const height = bottom - top;
  if (width === 0 || height === 0) return { ...size, data: emptyRgba(size) };
  const atOnce = width * height <= LARGEST_CANVAS_PX;
  const bandRows = atOnce ? height : Math.max(1, Math.floor(BAND_PX / width));
  const canvas = new OffscreenCanvas(width, bandRows);
  const context = canvas.getContext('2d', { willReadFrequently: true });
  if (!context) throw new Error(`no canvas of ${width} x ${bandRows} pixels`);
  // 'copy' replaces what an earlier band left, transparency included
  context.globalCompositeOperation = 'copy';
  if (atOnce && width === size.widthPx && height === size.heightPx) {
    context.drawImage(bitmap, 0, 0);
    return { ...size, data: rgbaOf(context, width, height) };
  }
  const data = emptyRgba(size);
  for (let bandTop = top; bandTop < bottom; bandTop += bandRows) {
    const rows = Math.min(bandRows, bottom - bandTop);
    context.drawImage(bitmap, -left, -bandTop);
    const band = rgbaOf(context, width, rows);
    for (let row = 0; row < rows; row += 1) {
      const pixels = band.subarray(row * width * 4, (row + 1) * width * 4);
      data.set(pixels, ((bandTop + row) * size.widthPx + left) * 4);
    }
  }
  return { ...size, data };
}

const emptyRgba = ({ widthPx, heightPx }: Pick<RgbaRaster, 'widthPx' | 'heightPx'>) =>
  new Uint8ClampedArray(widthPx * heightPx * 4);

const rgbaOf = (context: OffscreenCanvasRenderingContext2D, widthPx: number, rows: number) =>
  context.getImageData(0, 0, widthPx, rows, { colorSpace: 'srgb' }).data as Uint8ClampedArray<ArrayBuffer>;

async function inflate(compressed: Uint8Array, limitBytes: number): Promise<Uint8Array> {
  const stream = new Blob([compressed as Uint8Array<ArrayBuffer>])
    .stream()
    .pipeThrough(new DecompressionStream('deflate'));
  const pieces: Uint8Array<ArrayBuffer>[] = [];
  let length = 0;
  for (const reader = stream.getReader(); ; ) {
    const { done, value } = await reader.read();
    if (done) break;
    length += value.length;
    if (length > limitBytes) {
      await reader.cancel();
      throw new Error(`more than ${limitBytes} bytes`);
    }
    pieces.push(value as Uint8Array<ArrayBuffer>);
  }
  return new Uint8Array(await new Blob(pieces).arrayBuffer());
}
