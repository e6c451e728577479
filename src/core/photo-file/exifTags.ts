import ExifReader from 'exifreader';
import { viewOf } from './bytes.ts';

/** The EXIF tags of a photo file; undefined where it has none or they cannot be read. */
export function exifTags(bytes: Uint8Array) {
  try {
    return ExifReader.loadView(viewOf(bytes), { expanded: true, includeTags: { exif: true } }).exif;
  } catch {
    return undefined;
  }
}

/** EXIF texts come as a list of one, padded with zeros; null where nothing is written. */
export function exifText(value: unknown): string | null {
  const text = Array.isArray(value) ? value[0] : value;
  if (typeof text !== 'string') return null;
  return text.replaceAll('\0', '').trim() || null;
}

/** A number or a fraction of two; null for 0, which cameras write for unknown, and for fractions by 0. */
export function positiveNumber(value: unknown): number | null {
  const number = Array.isArray(value) ? Number(value[0]) / Number(value[1] ?? 1) : Number(value);
  return Number.isFinite(number) && number > 0 ? number : null;
}
