import { prepareZXingModule, type ReaderOptions, readBarcodes } from 'zxing-wasm/reader';
import type { LabelPicture } from '../src/core/trial/labelPicture.ts';

const OPTIONS: ReaderOptions = {
  formats: ['QRCode'],
  tryHarder: true,
  tryRotate: true,
  // labels are dark on light
  tryInvert: false,
  // the looks of core/trial/labelSearch.ts are of two sizes already
  tryDownscale: false,
};

/** Where the decoder's WebAssembly is: it would fetch it from a foreign host unless told. */
export type QrDecoder = { readonly wasmUrl: string } | { readonly wasmBinary: ArrayBuffer };

/** Loads the decoder. */
export async function loadQrDecoder(decoder: QrDecoder): Promise<void> {
  const overrides =
    'wasmUrl' in decoder ? { locateFile: () => decoder.wasmUrl } : { wasmBinary: decoder.wasmBinary };
  await prepareZXingModule({ overrides, fireImmediately: true });
}

/** Texts of all QR codes that can be read in a picture. */
export async function readQrCodes(picture: LabelPicture): Promise<string[]> {
  const results = await readBarcodes(picture as ImageData, OPTIONS);
  return results.flatMap(({ isValid, text }) => (isValid ? [text] : []));
}
