import { fourCharacters, viewOf } from './bytes.ts';
import { crc32 } from './crc32.ts';

/** A photo file without the place where it was taken. */
export interface PlainPhoto {
  /** As long as the file was; the file itself where it says no place. */
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Whether a place was found and taken out. */
  readonly hadPosition: boolean;
}

/**
 * Takes the position out of a photo file: the GPS block of EXIF, GPS fields of XMP, and the place noted by the short film
 * behind some phones' photos. Their bytes become zeros or blanks and everything else stays where it is, so the picture
 * decodes to the same pixels.
 *
 * @see Exif 2.32, section 4.6.6 (GPS attribute information)
 */
export function withoutPosition(file: Uint8Array<ArrayBuffer>): PlainPhoto {
  const bytes = file.slice();
  let hadPosition = false;
  for (const at of tiffBlocks(bytes)) hadPosition = clearGps(bytes, at) || hadPosition;
  hadPosition = clearXmp(bytes) || hadPosition;
  hadPosition = clearFilm(bytes) || hadPosition;
  if (!hadPosition) return { bytes: file, hadPosition };
  if (isPng(bytes)) mendPng(bytes);
  return { bytes, hadPosition };
}

const GPS_BLOCK = 0x8825;
/** Bytes a value of each TIFF type takes. */
const TYPE_BYTES = [0, 1, 1, 2, 4, 8, 1, 1, 2, 4, 8, 4, 8];

const codes = (text: string): number[] => [...text].map((character) => character.charCodeAt(0));

function* occurrences(bytes: Uint8Array, text: string): Generator<number> {
  const [first, ...rest] = codes(text);
  for (let at = bytes.indexOf(first!); at >= 0; at = bytes.indexOf(first!, at + 1)) {
    if (rest.every((code, index) => bytes[at + 1 + index] === code)) yield at;
  }
}

/** Where EXIF data begin: behind their mark in JPEG and HEIC, in a chunk of their own in PNG and WebP. */
function tiffBlocks(bytes: Uint8Array): number[] {
  const marked = [...occurrences(bytes, 'Exif\0\0')].map((at) => at + 6);
  const pngChunks = isPng(bytes) ? [...occurrences(bytes, 'eXIf')].map((at) => at + 4) : [];
  const isWebp = bytes.length > 12 && fourCharacters(bytes, 8) === 'WEBP';
  const webpChunks = isWebp ? [...occurrences(bytes, 'EXIF')].map((at) => at + 8) : [];
  return [...marked, ...pngChunks, ...webpChunks];
}

/** @returns whether there was a GPS block */
function clearGps(bytes: Uint8Array<ArrayBuffer>, start: number): boolean {
  if (start + 8 > bytes.length) return false;
  const order = String.fromCharCode(bytes[start]!, bytes[start + 1]!);
  if (order !== 'II' && order !== 'MM') return false;
  const little = order === 'II';
  const view = viewOf(bytes.subarray(start));
  const entriesOf = (block: number): number[] => {
    if (block < 8 || block + 2 > view.byteLength) return [];
    const count = view.getUint16(block, little);
    const places = Array.from({ length: count }, (_, index) => block + 2 + 12 * index);
    return places.filter((place) => place + 12 <= view.byteLength);
  };
  if (view.getUint16(2, little) !== 42) return false;
  let found = false;
  for (const entry of entriesOf(view.getUint32(4, little))) {
    if (view.getUint16(entry, little) !== GPS_BLOCK) continue;
    const block = view.getUint32(entry + 8, little);
    for (const gps of entriesOf(block)) {
      found = true;
      const size = (TYPE_BYTES[view.getUint16(gps + 2, little)] ?? 0) * view.getUint32(gps + 4, little);
      const from = start + view.getUint32(gps + 8, little);
      if (size > 4 && from + size <= bytes.length) bytes.fill(0, from, from + size);
      bytes.fill(0, start + gps, start + gps + 12);
    }
    if (found) view.setUint16(block, 0, little);
  }
  return found;
}

const QUOTE = 0x22;
const LESS = 0x3c;
const GREATER = 0x3e;
const BLANK = 0x20;

/** Values of `exif:GPS...`, written as attributes or as elements. */
function clearXmp(bytes: Uint8Array): boolean {
  let found = false;
  for (const at of occurrences(bytes, 'exif:GPS')) {
    if (bytes[at - 1] === 0x2f) continue; // a closing tag
    let from = at;
    while (from < bytes.length && bytes[from] !== QUOTE && bytes[from] !== GREATER) from += 1;
    const end = bytes[from] === QUOTE ? QUOTE : LESS;
    for (let i = from + 1; i < bytes.length && bytes[i] !== end; i += 1) {
      bytes[i] = BLANK;
      found = true;
    }
  }
  return found;
}

/** The place of a film, as ISO 6709 text such as +52.1234+004.5678/. */
function clearFilm(bytes: Uint8Array): boolean {
  let found = false;
  for (const at of occurrences(bytes, '\u00a9xyz')) {
    const from = at + 8; // behind length and language
    if (bytes[from] !== 0x2b && bytes[from] !== 0x2d) continue;
    for (
      let i = from;
      i < bytes.length &&
      (/[0-9]/.test(String.fromCharCode(bytes[i]!)) || '+-./'.includes(String.fromCharCode(bytes[i]!)));
      i += 1
    ) {
      if (bytes[i]! >= 0x30 && bytes[i]! <= 0x39) bytes[i] = 0x30;
      found = true;
    }
  }
  return found;
}

const isPng = (bytes: Uint8Array): boolean => bytes.length > 16 && fourCharacters(bytes, 12) === 'IHDR';

/** Check sums of all chunks anew. */
function mendPng(bytes: Uint8Array<ArrayBuffer>): void {
  const view = viewOf(bytes);
  for (let at = 8; at + 12 <= bytes.length; ) {
    const end = at + 8 + view.getUint32(at, false);
    if (end + 4 > bytes.length) return;
    view.setUint32(end, crc32(bytes.subarray(at + 4, end)), false);
    at = end + 4;
  }
}
