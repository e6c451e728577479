import { crc32 } from '../photo-file/crc32.ts';
import { applyPatchToLayer } from './applyPatch.ts';
import { ByteReader, ByteWriter } from './byteStream.ts';
import { type CorrectionLayer, emptyCorrections } from './correctionLayer.ts';
import { type CorrectionPatch, patchFromNothing, patchOf, startsFromNothing } from './correctionPatch.ts';

/** Newest version of both formats that this code reads, and the one it writes. */
export const CORRECTION_BYTES_VERSION = 1;

/** First bytes of stored corrections ("SwCl") and of a stored patch ("SwCp"). */
const LAYER_MAGIC = [0x53, 0x77, 0x43, 0x6c];
const PATCH_MAGIC = [0x53, 0x77, 0x43, 0x70];

const CHECK_BYTES = 4;

/** Why stored bytes give no corrections; the bytes are to be kept as they are. */
export type CorrectionBytesProblem =
  | { readonly code: 'corrections-other-data' }
  | { readonly code: 'corrections-newer-version'; readonly version: number; readonly known: number }
  | { readonly code: 'corrections-damaged'; readonly detail: string }
  | {
      readonly code: 'corrections-other-size';
      readonly widthPx: number;
      readonly heightPx: number;
      readonly photoWidthPx: number;
      readonly photoHeightPx: number;
    };

export type Decoded<Value> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly problem: CorrectionBytesProblem };

interface PhotoSize {
  readonly widthPx: number;
  readonly heightPx: number;
}

/**
 * A layer as bytes. The same corrections give the same bytes, however they came about.
 *
 * Layout: magic number, version (1 byte), width and height (LEB128), the runs of the patch that makes the layer out
 * of nothing (see `CorrectionPatch.tileRuns`), CRC-32 of all before it (4 bytes, lowest first).
 */
export function encodeCorrections(layer: CorrectionLayer): Uint8Array<ArrayBuffer> {
  return encode(LAYER_MAGIC, layer, patchFromNothing(layer)?.tileRuns ?? new Uint8Array(0));
}

/** Reads what `encodeCorrections` wrote for a photo of this size. */
export function decodeCorrections(bytes: Uint8Array, photo: PhotoSize): Decoded<CorrectionLayer> {
  return decode(LAYER_MAGIC, bytes, photo, (tileRuns) => {
    const layer = emptyCorrections(photo.widthPx, photo.heightPx);
    if (tileRuns.length === 0) return layer;
    const patch = patchOf(photo, tileRuns);
    if (!startsFromNothing(patch))
      throw new RangeError('a correction does not start from the automatic label');
    applyPatchToLayer(layer, patch);
    return layer;
  });
}

/** A patch as bytes; layout as `encodeCorrections`, with a magic number of its own. */
export function encodePatch(patch: CorrectionPatch): Uint8Array<ArrayBuffer> {
  return encode(PATCH_MAGIC, patch, patch.tileRuns);
}

/** Reads what `encodePatch` wrote for a photo of this size. */
export function decodePatch(bytes: Uint8Array, photo: PhotoSize): Decoded<CorrectionPatch> {
  return decode(PATCH_MAGIC, bytes, photo, (tileRuns) => {
    if (tileRuns.length === 0) throw new RangeError('the patch changes nothing');
    return patchOf(photo, tileRuns);
  });
}

function encode(magic: readonly number[], size: PhotoSize, tileRuns: Uint8Array): Uint8Array<ArrayBuffer> {
  const out = new ByteWriter();
  for (const byte of magic) out.byte(byte);
  out.byte(CORRECTION_BYTES_VERSION);
  out.number(size.widthPx);
  out.number(size.heightPx);
  out.bytes(tileRuns);
  const check = crc32(out.finish());
  for (let shift = 0; shift < 32; shift += 8) out.byte((check >>> shift) & 255);
  return out.finish();
}

function decode<Value>(
  magic: readonly number[],
  bytes: Uint8Array,
  photo: PhotoSize,
  parse: (tileRuns: Uint8Array<ArrayBuffer>) => Value,
): Decoded<Value> {
  const refuse = (problem: CorrectionBytesProblem) => ({ ok: false, problem }) as const;
  if (bytes.length < magic.length + 1 || magic.some((byte, i) => bytes[i] !== byte)) {
    return refuse({ code: 'corrections-other-data' });
  }
  const version = bytes[magic.length]!;
  if (version > CORRECTION_BYTES_VERSION) {
    return refuse({ code: 'corrections-newer-version', version, known: CORRECTION_BYTES_VERSION });
  }
  const end = bytes.length - CHECK_BYTES;
  const stored = bytes.subarray(Math.max(0, end)).reduceRight((value, byte) => value * 256 + byte, 0);
  if (version < 1 || end <= magic.length || stored !== crc32(bytes.subarray(0, end))) {
    return refuse({ code: 'corrections-damaged', detail: 'checksum' });
  }
  try {
    const reader = new ByteReader(bytes.subarray(0, end), magic.length + 1);
    const [widthPx, heightPx] = [reader.number(), reader.number()];
    if (widthPx !== photo.widthPx || heightPx !== photo.heightPx) {
      const { widthPx: photoWidthPx, heightPx: photoHeightPx } = photo;
      return refuse({ code: 'corrections-other-size', widthPx, heightPx, photoWidthPx, photoHeightPx });
    }
    return { ok: true, value: parse(new Uint8Array(bytes.subarray(reader.position, end))) };
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return refuse({ code: 'corrections-damaged', detail: error.message });
  }
}
