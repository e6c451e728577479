import { hasText } from './bytes.ts';
import { inspectIsoMedia } from './inspectHeic.ts';
import { inspectJpeg } from './inspectJpeg.ts';
import { inspectPng } from './inspectPng.ts';
import { inspectWebp } from './inspectWebp.ts';
import { type PhotoFileInspection, refuse } from './photoFileInfo.ts';

/**
 * A side shorter than this leaves no room for texture and no share worth the name: 64 x 64 pixels are 4096, one of
 * which is 0.02 points of cover. No phone photo is near it; a thumbnail sent by mistake is.
 */
export const LEAST_PHOTO_SIDE_PX = 64;

/** Kinds of file that are known and not read, by the bytes they begin with. */
const OTHER_KINDS: readonly (readonly [kind: string, offset: number, text: string])[] = [
  ['GIF', 0, 'GIF8'],
  ['TIFF or camera raw', 0, 'II*\0'],
  ['TIFF or camera raw', 0, 'MM\0*'],
  ['BMP', 0, 'BM'],
  ['layered picture', 0, '8BPS'],
  ['JPEG 2000', 4, 'jP  \r\n'],
  ['JPEG XL', 0, '\xff\x0a'],
  ['JPEG XL', 4, 'JXL \r\n'],
  ['PDF', 0, '%PDF'],
];

/**
 * Looks at a photo file without decoding it: what it is, how large, whether it is whole.
 *
 * Works by structure alone and takes no memory from declared sizes, so that no file can make it fail or wait.
 *
 * @param bytes the whole file
 */
export function inspectPhotoFile(bytes: Uint8Array): PhotoFileInspection {
  const inspection = inspectByKind(bytes);
  if (!inspection.ok) return inspection;
  const { storedWidthPx: widthPx, storedHeightPx: heightPx } = inspection.info;

  if (widthPx === 0 || heightPx === 0)
    return refuse({ code: 'damaged', detail: `size ${widthPx} x ${heightPx}` });
  if (Math.min(widthPx, heightPx) < LEAST_PHOTO_SIDE_PX) {
    return refuse({ code: 'too-small', widthPx, heightPx, leastSidePx: LEAST_PHOTO_SIDE_PX });
  }
  return inspection;
}

function inspectByKind(bytes: Uint8Array): PhotoFileInspection {
  if (bytes.length === 0) return refuse({ code: 'empty-file' });
  if (hasText(bytes, 0, '\xff\xd8\xff')) return inspectJpeg(bytes);
  if (hasText(bytes, 0, '\x89PNG\r\n\x1a\n')) return inspectPng(bytes);
  if (hasText(bytes, 0, 'RIFF') && hasText(bytes, 8, 'WEBP')) return inspectWebp(bytes);
  if (hasText(bytes, 4, 'ftyp')) return inspectIsoMedia(bytes);
  const other = OTHER_KINDS.find(([, offset, text]) => hasText(bytes, offset, text));
  return refuse(other ? { code: 'unsupported-kind', kind: other[0] } : { code: 'not-a-picture' });
}
