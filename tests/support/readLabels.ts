import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import sharp from 'sharp';
import { greyOf } from '../../src/core/trial/labelPicture.ts';
import { searchPlotLabels } from '../../src/core/trial/labelSearch.ts';
import { loadQrDecoder, readQrCodes } from '../../workers/readQrCodes.ts';

let loading: Promise<void> | null = null;

/** Labels of a photo file as the label worker reads them, but decoded by sharp. */
export async function readLabels(jpeg: Uint8Array): Promise<string[]> {
  const wasm = createRequire(import.meta.url).resolve('zxing-wasm/reader/zxing_reader.wasm');
  loading ??= loadQrDecoder({ wasmBinary: new Uint8Array(readFileSync(wasm)).buffer });
  await loading;
  const { data, info } = await sharp(jpeg).ensureAlpha().raw().toBuffer({ resolveWithObject: true });
  const raster = { widthPx: info.width, heightPx: info.height, data: new Uint8ClampedArray(data) };
  return searchPlotLabels(greyOf(raster), readQrCodes);
}
