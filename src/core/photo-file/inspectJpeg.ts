import { hasText, joinBytes, viewOf } from './bytes.ts';
import { exifOrientation, type Orientation } from './exifOrientation.ts';
import { type PhotoFileInfo, type PhotoFileInspection, refuse, tooLarge } from './photoFileInfo.ts';

const EXIF = 'Exif\0\0';
const ICC = 'ICC_PROFILE\0';
const START_OF_SCAN = 0xda;
const END_OF_IMAGE = 0xd9;

const isRestart = (marker: number): boolean => marker >= 0xd0 && marker <= 0xd7;
const isFrameHeader = (marker: number): boolean =>
  marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;

/** JPEG processes that browsers decode: baseline, extended sequential, progressive, all Huffman-coded. */
const DECODABLE_FRAMES = [0xc0, 0xc1, 0xc2];
/** A block of 8 x 8 pixels takes one bit at the very least. */
const PIXELS_PER_SCAN_BYTE = 8 * 64;

/**
 * Walks the segments of a JPEG file.
 *
 * Huffman-coded data is only searched for markers, so damage inside it is the decoder's to find.
 *
 * @see ITU-T T.81, annex B
 */
export function inspectJpeg(bytes: Uint8Array): PhotoFileInspection {
  const view = viewOf(bytes);
  const parts: Uint8Array[] = [bytes.subarray(0, 2)];
  const profilePieces: Uint8Array[] = [];
  let orientation: Orientation | null = null;
  let size: { storedWidthPx: number; storedHeightPx: number } | null = null;
  let scanBytes = 0;
  let at = 2;
  for (;;) {
    // a marker: one or more 0xff, then its code
    if (at >= bytes.length) return refuse({ code: 'truncated' });
    if (bytes[at] !== 0xff) return refuse({ code: 'damaged', detail: `no marker at byte ${at}` });
    while (bytes[at] === 0xff) at += 1;
    if (at >= bytes.length) return refuse({ code: 'truncated' });
    const marker = bytes[at]!;
    const start = at - 1;
    at += 1;
    if (marker === END_OF_IMAGE) {
      parts.push(bytes.subarray(start, at));
      break;
    }
    if (marker < 0xc0 || isRestart(marker) || marker === 0xd8) {
      return refuse({ code: 'damaged', detail: `marker ff${hex(marker)} out of place at byte ${start}` });
    }
    if (at + 2 > bytes.length) return refuse({ code: 'truncated' });
    const length = view.getUint16(at);
    if (length < 2)
      return refuse({ code: 'damaged', detail: `segment of length ${length} at byte ${start}` });
    let end = at + length;
    if (end > bytes.length) return refuse({ code: 'truncated' });
    const body = at + 2;

    if (isFrameHeader(marker)) {
      if (size) return refuse({ code: 'damaged', detail: `second frame header at byte ${start}` });
      if (length < 8) return refuse({ code: 'damaged', detail: `short frame header at byte ${start}` });
      const components = bytes[body + 5]!;
      if (!DECODABLE_FRAMES.includes(marker)) {
        return refuse({ code: 'unsupported-kind', kind: `JPEG of process ${marker - 0xc0}` });
      }
      if (bytes[body] !== 8) return refuse({ code: 'unsupported-kind', kind: `${bytes[body]}-bit JPEG` });
      if (components === 1) return refuse({ code: 'greyscale' });
      if (components === 4) return refuse({ code: 'cmyk' });
      if (components !== 3)
        return refuse({ code: 'damaged', detail: `${components} colour components at byte ${start}` });
      size = { storedWidthPx: view.getUint16(body + 3), storedHeightPx: view.getUint16(body + 1) };
      const refusal = tooLarge(size.storedWidthPx, size.storedHeightPx);
      if (refusal) return refusal;
    }
    if (marker === START_OF_SCAN) {
      if (!size) return refuse({ code: 'damaged', detail: `scan before the frame header at byte ${start}` });
      const scanStart = end;
      end = endOfScan(bytes, scanStart);
      if (end < 0) return refuse({ code: 'truncated' });
      scanBytes += end - scanStart;
    }
    if (marker === 0xe1 && orientation === null && hasText(bytes, body, EXIF)) {
      orientation = exifOrientation(bytes.subarray(body + EXIF.length, end));
    }
    if (marker === 0xe2 && hasText(bytes, body, ICC)) {
      profilePieces.push(bytes.subarray(body + ICC.length, end));
    }
    if (pixelsNeed(marker, bytes, body)) parts.push(bytes.subarray(start, end));
    at = end;
  }
  if (!size || scanBytes === 0) return refuse({ code: 'damaged', detail: 'no picture data' });
  if (scanBytes < (size.storedWidthPx * size.storedHeightPx) / PIXELS_PER_SCAN_BYTE) {
    return refuse({ code: 'damaged', detail: `${scanBytes} bytes of picture data for the size declared` });
  }
  return {
    ok: true,
    info: {
      kind: 'jpeg',
      ...size,
      orientation: orientation ?? 1,
      hasAlpha: false,
      embeddedProfile: joinProfile(profilePieces),
      pictureParts: parts,
    },
  };
}

/** Application segments say nothing about pixels, save JFIF and Adobe's, which tell YCbCr from RGB; nor do comments. */
function pixelsNeed(marker: number, bytes: Uint8Array, body: number): boolean {
  if (marker === 0xe0) return hasText(bytes, body, 'JFIF\0');
  if (marker === 0xee) return hasText(bytes, body, 'Adobe');
  return !(marker >= 0xe0 && marker <= 0xef) && marker !== 0xfe;
}

/** Where Huffman-coded data ends: at the next marker that is no restart. -1 when the file ends first. */
function endOfScan(bytes: Uint8Array, from: number): number {
  for (let at = bytes.indexOf(0xff, from); at >= 0; at = bytes.indexOf(0xff, at + 1)) {
    const next = bytes[at + 1];
    if (next === undefined) return -1;
    if (next !== 0 && next !== 0xff && !isRestart(next)) return at;
  }
  return -1;
}

/**
 * The profile from its pieces, each headed by its number and the number of pieces; null when one is missing.
 *
 * @see ICC.1:2022, annex B.4
 */
function joinProfile(pieces: readonly Uint8Array[]): PhotoFileInfo['embeddedProfile'] {
  const ordered = pieces.filter((piece) => piece.length > 2).sort((a, b) => a[0]! - b[0]!);
  const whole = ordered.every((piece, index) => piece[0] === index + 1 && piece[1] === ordered.length);
  if (ordered.length === 0 || !whole) return null;
  return { bytes: joinBytes(ordered.map((piece) => piece.subarray(2))), compressed: false };
}

const hex = (byte: number): string => byte.toString(16).padStart(2, '0');
