import { type MeasureSettings, measurePhoto } from '../../src/core/cover/measurePhoto.ts';
import { decodePhoto } from '../../workers/decodePhoto.ts';

export interface MeasureQuestion {
  /** Base64 of the file. */
  readonly photo: string;
  readonly settings: MeasureSettings;
}

/** Labels as base64, and the figures; or the problem. */
self.onmessage = async ({ data: { photo, settings } }: MessageEvent<MeasureQuestion>) => {
  const decoded = await decodePhoto(Uint8Array.from(atob(photo), (character) => character.charCodeAt(0)));
  if (!decoded.ok) return self.postMessage(decoded);
  const result = await measurePhoto(decoded.raster, settings);
  if (!result.ok) return self.postMessage(result);
  const { mask, cover, flags, modelId } = result.measurement;
  let labels = '';
  for (let i = 0; i < mask.labels.length; i += 8192) {
    labels += String.fromCharCode(...mask.labels.subarray(i, i + 8192));
  }
  self.postMessage({ ok: true, cover, flags, modelId, labels: btoa(labels) });
};
