import { crc32 } from '../../core/photo-file/crc32.ts';

/** Signature and header, which the standard puts first: 8 bytes, then length, type, 13 bytes and checksum. */
const AFTER_HEADER = 8 + 4 + 4 + 13 + 4;
const METRES_PER_INCH = 0.0254;

/**
 * The PNG with its resolution written into it, so that it comes into a document at its printed size.
 *
 * @param png as a canvas gives it: without a resolution of its own
 * @see PNG specification (W3C), "pHYs Physical pixel dimensions"
 */
export function withResolution(png: Uint8Array, dotsPerInch: number): Uint8Array<ArrayBuffer> {
  const chunk = new Uint8Array(4 + 4 + 9 + 4);
  const view = new DataView(chunk.buffer);
  const dotsPerMetre = Math.round(dotsPerInch / METRES_PER_INCH);
  view.setUint32(0, 9);
  chunk.set([0x70, 0x48, 0x59, 0x73], 4);
  view.setUint32(8, dotsPerMetre);
  view.setUint32(12, dotsPerMetre);
  chunk[16] = 1;
  view.setUint32(17, crc32(chunk.subarray(4, 17)));
  const out = new Uint8Array(png.length + chunk.length);
  out.set(png.subarray(0, AFTER_HEADER));
  out.set(chunk, AFTER_HEADER);
  out.set(png.subarray(AFTER_HEADER), AFTER_HEADER + chunk.length);
  return out;
}
