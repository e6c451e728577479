import { expose } from 'comlink';
import wasmUrl from 'zxing-wasm/reader/zxing_reader.wasm?url';
import type { LabelApi } from './labelApi.ts';
import { readPhotoLabels } from './readPhotoLabels.ts';
import { loadQrDecoder } from './readQrCodes.ts';

let loading: Promise<void> | null = null;

const labelApi: LabelApi = {
  async read(bytes) {
    loading ??= loadQrDecoder({ wasmUrl: new URL(wasmUrl, self.location.href).href });
    await loading;
    return readPhotoLabels(new Uint8Array(bytes));
  },
};
expose(labelApi);
