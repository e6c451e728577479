import { hasText, viewOf } from './bytes.ts';

/** How the stored pixels are turned to stand upright: 1 as stored, 2..8 as in the Exif standard. */
export type Orientation = 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8;

const ORIENTATION_TAG = 0x0112;
const SHORT = 3;

/**
 * The orientation a TIFF block of EXIF names in its first directory; 1 where it names none or nonsense.
 *
 * @param tiff from the byte-order mark on
 * @see Exif 2.32 (CIPA DC-008), tag 0x0112
 */
export function exifOrientation(tiff: Uint8Array): Orientation {
  const little = hasText(tiff, 0, 'II*\0');
  if (!little && !hasText(tiff, 0, 'MM\0*')) return 1;
  if (tiff.length < 8) return 1;
  const view = viewOf(tiff);
  const directory = view.getUint32(4, little);
  if (directory + 2 > tiff.length) return 1;
  const entries = view.getUint16(directory, little);
  for (let i = 0; i < entries; i += 1) {
    const entry = directory + 2 + 12 * i;
    if (entry + 12 > tiff.length) return 1;
    if (view.getUint16(entry, little) !== ORIENTATION_TAG) continue;
    const value = view.getUint16(entry + 2, little) === SHORT ? view.getUint16(entry + 8, little) : 1;
    return value >= 1 && value <= 8 ? (value as Orientation) : 1;
  }
  return 1;
}
