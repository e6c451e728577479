import { ByteWriter } from './byteStream.ts';
import { canonicalJson } from './canonicalJson.ts';
import { encodeCorrections } from './correctionBytes.ts';
import type { CorrectionLayer } from './correctionLayer.ts';

/** What a figure rests on, for one photo of a rating date that is signed off. */
export interface SignedPhoto {
  /** SHA-256 of the photo's bytes, 64 hexadecimal digits in lower case. */
  readonly photoSha256: string;
  /** The model that made the automatic mask. */
  readonly modelId: string;
  /** Settings of the measurement: plain data that JSON can hold. */
  readonly settings: unknown;
  readonly corrections: CorrectionLayer;
}

/** "SwSo" and the version of the layout. */
const HEADER = [0x53, 0x77, 0x53, 0x6f, 1];

/**
 * The bytes whose SHA-256 seals a rating date: any later change of a model, a setting or a corrected pixel changes it.
 *
 * Layout: magic number "SwSo", version 1 (1 byte), number of photos (LEB128), then for each photo by rising hash:
 * length (LEB128) and bytes of the canonical JSON of `{modelId, photoSha256, settings}`, length (LEB128) and bytes of
 * `encodeCorrections`. The order of the photos, of keys and of edits does not matter.
 *
 * @throws RangeError if a photo hash is malformed or appears twice
 */
export function signOffBytes(photos: readonly SignedPhoto[]): Uint8Array<ArrayBuffer> {
  const sorted = [...photos].sort((a, b) => (a.photoSha256 < b.photoSha256 ? -1 : 1));
  const out = new ByteWriter();
  for (const byte of HEADER) out.byte(byte);
  out.number(sorted.length);
  sorted.forEach(({ photoSha256, modelId, settings, corrections }, i) => {
    if (!/^[0-9a-f]{64}$/.test(photoSha256)) {
      throw new RangeError(`a photo hash is 64 digits 0-9a-f, got "${photoSha256}"`);
    }
    if (sorted[i - 1]?.photoSha256 === photoSha256)
      throw new RangeError(`photo ${photoSha256} appears twice`);
    const json = canonicalJson({ photoSha256, modelId, settings });
    out.number(json.length);
    for (let at = 0; at < json.length; at += 1) out.byte(json.charCodeAt(at));
    const layer = encodeCorrections(corrections);
    out.number(layer.length);
    out.bytes(layer);
  });
  return out.finish();
}
