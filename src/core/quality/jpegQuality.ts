import { viewOf } from '../photo-file/bytes.ts';

/** Luminance quantisation of ITU-T T.81, table K.1, in zigzag order: what "quality 50" of libjpeg uses. */
const STANDARD_LUMINANCE = [
  16, 11, 12, 14, 12, 10, 16, 14, 13, 14, 18, 17, 16, 19, 24, 40, 26, 24, 22, 22, 24, 49, 35, 37, 29, 40, 58,
  51, 61, 60, 57, 51, 56, 55, 64, 72, 92, 78, 64, 68, 87, 69, 55, 56, 80, 109, 81, 87, 95, 98, 103, 104, 103,
  62, 77, 113, 121, 112, 100, 120, 92, 101, 103, 99,
];
const STANDARD_SUM = STANDARD_LUMINANCE.reduce((sum, value) => sum + value, 0);

const START_OF_SCAN = 0xda;
const QUANTISATION_TABLES = 0xdb;

/**
 * How strongly a JPEG file is compressed, 1..100 as libjpeg counts quality, from its luminance table.
 *
 * Good to 1 from 20 on; below, entries reach their limit of 255 and the answer is too high. Tables of other makers differ in shape; their mean is compared, which serves to tell a camera from a messenger.
 *
 * @returns null where the file is no JPEG or holds no such table before its picture data
 * @see ITU-T T.81, B.2.4.1 and annex K; libjpeg jcparam.c, jpeg_quality_scaling
 */
export function jpegQuality(bytes: Uint8Array): number | null {
  if (bytes[0] !== 0xff || bytes[1] !== 0xd8) return null;
  const view = viewOf(bytes);
  for (let at = 2; at + 4 <= bytes.length && bytes[at] === 0xff; ) {
    const marker = bytes[at + 1]!;
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    if (marker === START_OF_SCAN) return null;
    const end = at + 2 + view.getUint16(at + 2);
    if (marker === QUANTISATION_TABLES) {
      const sum = luminanceSum(bytes, at + 4, Math.min(end, bytes.length));
      if (sum !== null) return qualityOf((100 * sum) / STANDARD_SUM);
    }
    at = end;
  }
  return null;
}

/** Sum of table 0, whose entries have 8 or 16 bits. */
function luminanceSum(bytes: Uint8Array, from: number, end: number): number | null {
  for (let at = from; at < end; ) {
    const bytesPerEntry = bytes[at]! >> 4 ? 2 : 1;
    const table = bytes[at]! & 15;
    const next = at + 1 + 64 * bytesPerEntry;
    if (next > end) return null;
    if (table === 0) {
      let sum = 0;
      for (let i = at + 1; i < next; i += bytesPerEntry) {
        sum += bytesPerEntry === 2 ? 256 * bytes[i]! + bytes[i + 1]! : bytes[i]!;
      }
      return sum;
    }
    at = next;
  }
  return null;
}

/** The inverse of libjpeg's scaling: 200 - 2 q percent of the standard table from 50 on, 5000 / q below. */
function qualityOf(scalePercent: number): number {
  const quality = scalePercent <= 100 ? (200 - scalePercent) / 2 : 5000 / scalePercent;
  return Math.min(100, Math.max(1, Math.round(quality)));
}
