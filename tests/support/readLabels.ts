import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import sharp from 'sharp';
import { searchPlotLabels } from '../../src/core/trial/labelSearch.ts';
import { loadQrDecoder, readQrCodes } from '../../workers/readQrCodes.ts';

let loading: Promise<void> | null = null;

/** Labels of a photo file as the label worker reads them, but decoded and made smaller by sharp. */
export async function readLabels(jpeg: Uint8Array): Promise<string[]> {
  const wasm = createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm');
  loading ??= loadQrDecoder({ wasmBinary: new Uint8Array(readFileSync(wasm)).buffer });
  await loading;
  const { data, info } = await sharp(jpeg).ensureAlpha().raw().toBuffer({ resolveWithObject: true });
  const raw = { width: info.width, height: info.height, channels: 4 } as const;
  return searchPlotLabels(info.width, info.height, async ({ left, top, widthPx, heightPx, scale, tone }) => {
    const [width, height] = [Math.round(widthPx * scale), Math.round(heightPx * scale)];
    const view = sharp(data, { raw }).extract({ left, top, width: widthPx, height: heightPx });
    const pixels = await view.resize(width, height).raw().toBuffer();
    return readQrCodes({ data: new Uint8ClampedArray(pixels), width, height } as ImageData, tone);
  });
}
