import { readPhotoLabels } from '../../workers/readPhotoLabels.ts';
import { loadQrDecoder } from '../../workers/readQrCodes.ts';

/** Reads the labels of photos in a browser worker, one after the other. */
export interface LabelsRequest {
  readonly photos: readonly string[];
}

export interface LabelsAnswer {
  /** Of the same photo, warm. */
  readonly decodeMs: number;
  /** Fetching and starting the decoder of QR codes. */
  readonly loadMs: number;
  readonly photos: readonly { readonly texts: readonly string[]; readonly ms: number }[];
}

addEventListener('message', async ({ data: { photos } }: MessageEvent<LabelsRequest>) => {
  const files = await Promise.all(
    photos.map(async (name) => new Uint8Array(await (await fetch(`/files/${name}`)).arrayBuffer())),
  );
  const decodes: number[] = [];
  for (let repeat = 0; repeat < 5; repeat += 1) {
    const started = performance.now();
    (await createImageBitmap(new Blob([files[0]!]))).close();
    decodes.push(performance.now() - started);
  }
  const loading = performance.now();
  await loadQrDecoder({ wasmUrl: '/files/zxing_reader.wasm' });
  const loadMs = performance.now() - loading;
  const answers: { texts: readonly string[]; ms: number }[] = [];
  for (const file of files) {
    const started = performance.now();
    const outcome = await readPhotoLabels(file);
    answers.push({ texts: outcome.ok ? outcome.texts : [], ms: performance.now() - started });
  }
  const answer: LabelsAnswer = { decodeMs: decodes.sort((a, b) => a - b)[2]!, loadMs, photos: answers };
  postMessage(answer);
});
