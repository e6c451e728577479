import { expose } from 'comlink';
import wasmUrl from 'zxing-wasm/reader/zxing_reader.wasm?url';
import { inspectPhotoFile } from '../src/core/photo-file/inspectPhotoFile.ts';
import { type LabelView, searchPlotLabels } from '../src/core/trial/labelSearch.ts';
import type { LabelApi } from './labelApi.ts';
import { loadQrDecoder, readQrCodes } from './readQrCodes.ts';

let loading: Promise<void> | null = null;

const labelApi: LabelApi = {
  async read(bytes) {
    loading ??= loadQrDecoder({ wasmUrl: new URL(wasmUrl, self.location.href).href });
    const inspection = inspectPhotoFile(new Uint8Array(bytes));
    if (!inspection.ok) return { ok: false };
    let bitmap: ImageBitmap;
    try {
      const parts = inspection.info.pictureParts as Uint8Array<ArrayBuffer>[];
      bitmap = await createImageBitmap(new Blob(parts));
    } catch {
      return { ok: false };
    }
    try {
      await loading;
      const { width, height } = bitmap;
      return { ok: true, texts: await searchPlotLabels(width, height, (view) => look(bitmap, view)) };
    } finally {
      bitmap.close();
    }
  },
};
expose(labelApi);

function look(bitmap: ImageBitmap, { left, top, widthPx, heightPx, scale, tone }: LabelView) {
  const [width, height] = [Math.round(widthPx * scale), Math.round(heightPx * scale)];
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d', { willReadFrequently: true });
  if (!context) throw new Error(`no canvas of ${width} x ${height} pixels`);
  context.imageSmoothingQuality = 'medium';
  context.drawImage(bitmap, left, top, widthPx, heightPx, 0, 0, width, height);
  return readQrCodes(context.getImageData(0, 0, width, height), tone);
}
