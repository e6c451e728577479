import { promisify } from 'node:util';
import { inflate as zlibInflate } from 'node:zlib';
import sharp from 'sharp';
import { joinBytes } from '../core/photo-file/bytes.ts';
import type { DecodeResult } from '../core/photo-file/decodeResult.ts';
import { finishRaster } from '../core/photo-file/finishRaster.ts';
import { inspectPhotoFile } from '../core/photo-file/inspectPhotoFile.ts';
import type { PhotoFileInfo } from '../core/photo-file/photoFileInfo.ts';
import { settleColour } from '../core/photo-file/settleColour.ts';
import type { RgbaRaster } from '../core/raster/rgbaRaster.ts';

const inflate = promisify(zlibInflate);

/**
 * A photo file to upright sRGB pixels: the same bytes as `decodePhoto` of the page's worker (tests/parity).
 *
 * libvips keeps no pictures in memory between calls, and its JPEG decoder is the one browsers use.
 */
export async function decodePhoto(bytes: Uint8Array): Promise<DecodeResult> {
  const inspection = inspectPhotoFile(bytes);
  if (!inspection.ok) return inspection;
  return decodePicture(inspection.info);
}

/** The pixels of a file that was looked at already. */
export async function decodePicture(info: PhotoFileInfo): Promise<DecodeResult> {
  if (info.kind === 'heic') return { ok: false, problem: { code: 'heic-not-decodable' } };
  const colour = await settleColour(info, (data, limitBytes) =>
    inflate(data, { maxOutputLength: limitBytes }),
  );
  if (!colour.ok) return colour;
  try {
    const picture = sharp(joinBytes(info.pictureParts), { limitInputPixels: false, failOn: 'warning' });
    const { data, info: size } = await picture
      .toColourspace('srgb')
      .ensureAlpha()
      .raw({ depth: 'uchar' })
      .toBuffer({ resolveWithObject: true });
    const raster: RgbaRaster = {
      widthPx: size.width,
      heightPx: size.height,
      data: new Uint8ClampedArray(data.buffer as ArrayBuffer, data.byteOffset, data.byteLength),
    };
    return { ok: true, raster: finishRaster(raster, info, colour.conversion) };
  } catch {
    // libvips keeps one list of errors for all threads: its own words may be those of another photo
    return { ok: false, problem: { code: 'damaged', detail: 'its picture data cannot be decoded' } };
  }
}
