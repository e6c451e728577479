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

/** A photo file to upright sRGB pixels: the same bytes as `decodePhoto` of the command line (tests/parity). */
export async function decodePhoto(bytes: Uint8Array<ArrayBuffer>): Promise<TimedResult> {
  const inspection = inspectPhotoFile(bytes);
  if (!inspection.ok) return inspection;
  return decodePicture(inspection.info);
}

/** The pixels of a file that was looked at already. */
export async function decodePicture(info: PhotoFileInfo): Promise<TimedResult> {
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
    raster = finishRaster(readBack(bitmap), info, colour.conversion);
  } finally {
    bitmap.close();
  }
  const timings = { decodeMs: decoded - started, readBackMs: performance.now() - decoded };
  return { ok: true, raster, timings };
}

function readBack(bitmap: ImageBitmap): RgbaRaster {
  const { width: widthPx, height: heightPx } = bitmap;
  const whole = widthPx * heightPx <= LARGEST_CANVAS_PX;
  const bandRows = whole ? heightPx : Math.max(1, Math.floor(BAND_PX / widthPx));
  const canvas = new OffscreenCanvas(widthPx, bandRows);
  const context = canvas.getContext('2d', { willReadFrequently: true });
  if (!context) throw new Error(`no canvas of ${widthPx} x ${bandRows} pixels`);
  // 'copy' replaces what an earlier band left, transparency included
  context.globalCompositeOperation = 'copy';
  if (whole) {
    context.drawImage(bitmap, 0, 0);
    return { widthPx, heightPx, data: rgbaOf(context, widthPx, heightPx) };
  }
  const data = new Uint8ClampedArray(widthPx * heightPx * 4);
  for (let top = 0; top < heightPx; top += bandRows) {
    const rows = Math.min(bandRows, heightPx - top);
    context.drawImage(bitmap, 0, -top);
    data.set(rgbaOf(context, widthPx, rows), top * widthPx * 4);
  }
  return { widthPx, heightPx, data };
}

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
