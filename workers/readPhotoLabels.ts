import { inspectPhotoFile } from '../src/core/photo-file/inspectPhotoFile.ts';
import { type LabelView, searchPlotLabels } from '../src/core/trial/labelSearch.ts';
import type { LabelOutcome } from './labelApi.ts';
import { readQrCodes } from './readQrCodes.ts';

/** The plot labels in a photo file; the decoder of QR codes has to be loaded. */
export async function readPhotoLabels(file: Uint8Array): Promise<LabelOutcome> {
  const inspection = inspectPhotoFile(file);
  if (!inspection.ok) return { ok: false };
  let bitmap: ImageBitmap;
  try {
    bitmap = await createImageBitmap(new Blob(inspection.info.pictureParts as Uint8Array<ArrayBuffer>[]));
  } catch {
    return { ok: false };
  }
  try {
    return {
      ok: true,
      texts: await searchPlotLabels(bitmap.width, bitmap.height, (view) => look(bitmap, view)),
    };
  } finally {
    bitmap.close();
  }
}

function look(bitmap: ImageBitmap, { left, top, widthPx, heightPx, scale, tone }: LabelView) {
  const [width, height] = [Math.round(widthPx * scale), Math.round(heightPx * scale)];
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d', { willReadFrequently: true });
  if (!context) throw new Error(`no canvas of ${width} x ${height} pixels`);
  context.imageSmoothingQuality = 'medium';
  context.drawImage(bitmap, left, top, widthPx, heightPx, 0, 0, width, height);
  return readQrCodes(context.getImageData(0, 0, width, height), tone);
}
