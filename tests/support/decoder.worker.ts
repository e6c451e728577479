import { decoderSelfTest } from '../../src/core/photo-file/decoderSelfTest.ts';
import { decodePhoto, decodePicture } from '../../workers/decodePhoto.ts';

/** Bytes travel as base64, which is what the browser's debugging protocol carries. */
export type DecoderQuestion = { readonly photo: string } | 'self-test';

self.onmessage = async ({ data }: MessageEvent<DecoderQuestion>) => {
  if (data === 'self-test') return self.postMessage(await decoderSelfTest(decodePicture));
  const result = await decodePhoto(Uint8Array.from(atob(data.photo), (character) => character.charCodeAt(0)));
  if (!result.ok) return self.postMessage(result);
  const { widthPx, heightPx, data: pixels } = result.raster;
  let text = '';
  for (let i = 0; i < pixels.length; i += 8192) text += String.fromCharCode(...pixels.subarray(i, i + 8192));
  self.postMessage({ ok: true, widthPx, heightPx, data: btoa(text) });
};
