import { greyOf } from '../src/core/trial/labelPicture.ts';
import { searchPlotLabels } from '../src/core/trial/labelSearch.ts';
import { decodePhoto } from './decodePhoto.ts';
import type { LabelOutcome } from './labelApi.ts';
import { readQrCodes } from './readQrCodes.ts';

/** The plot labels in a photo file; the decoder of QR codes has to be loaded. */
export async function readPhotoLabels(file: Uint8Array<ArrayBuffer>): Promise<LabelOutcome> {
  const decoded = await decodePhoto(file);
  if (!decoded.ok) return { ok: false };
  return { ok: true, texts: await searchPlotLabels(greyOf(decoded.raster), readQrCodes) };
}
