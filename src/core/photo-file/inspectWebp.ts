import { fourCharacters, hasText, joinBytes, viewOf } from './bytes.ts';
import { exifOrientation, type Orientation } from './exifOrientation.ts';
import { type PhotoFileInfo, type PhotoFileInspection, refuse, tooLarge } from './photoFileInfo.ts';

const ANIMATION_FLAG = 0x02;
const ALPHA_FLAG = 0x10;

/** Walks the chunks of a WebP file. @see RFC 9649 */
export function inspectWebp(bytes: Uint8Array): PhotoFileInspection {
  const view = viewOf(bytes);
  const fileEnd = 8 + view.getUint32(4, true);
  if (fileEnd > bytes.length) return refuse({ code: 'truncated' });
  const parts: Uint8Array[] = [];
  let size: { storedWidthPx: number; storedHeightPx: number } | null = null;
  let hasAlpha = false;
  let orientation: Orientation = 1;
  let embeddedProfile: PhotoFileInfo['embeddedProfile'] = null;
  let hasPixels = false;
  let at = 12;
  while (at < fileEnd) {
    if (at + 8 > fileEnd) return refuse({ code: 'truncated' });
    const type = fourCharacters(bytes, at);
    const length = view.getUint32(at + 4, true);
    const end = at + 8 + length;
    if (end > fileEnd) return refuse({ code: 'truncated' });
    const body = bytes.subarray(at + 8, end);
    const padded = bytes.subarray(at, Math.min(end + (length & 1), fileEnd));
    if (type === 'VP8X' && length >= 10) {
      if (body[0]! & ANIMATION_FLAG) return refuse({ code: 'unsupported-kind', kind: 'animated WebP' });
      size = { storedWidthPx: 1 + uint24(body, 4), storedHeightPx: 1 + uint24(body, 7) };
      hasAlpha = (body[0]! & ALPHA_FLAG) !== 0;
      const plain = padded.slice();
      plain[8] = body[0]! & ALPHA_FLAG; // nothing but pixels follows
      parts.push(plain);
    } else if (type === 'VP8 ' || type === 'VP8L') {
      const own = type === 'VP8 ' ? sizeOfLossy(body) : sizeOfLossless(body);
      if (!own) return refuse({ code: 'damaged', detail: `no ${type.trim()} picture at byte ${at}` });
      if (type === 'VP8L' && !size) hasAlpha = own.hasAlpha;
      size ??= { storedWidthPx: own.storedWidthPx, storedHeightPx: own.storedHeightPx };
      if (size.storedWidthPx !== own.storedWidthPx || size.storedHeightPx !== own.storedHeightPx) {
        return refuse({ code: 'damaged', detail: 'the picture has another size than its head says' });
      }
      hasPixels = true;
      parts.push(padded);
    } else if (type === 'ALPH') {
      parts.push(padded);
    } else if (type === 'ICCP') {
      embeddedProfile = { bytes: body, compressed: false };
    } else if (type === 'EXIF') {
      orientation = exifOrientation(hasText(body, 0, 'Exif\0\0') ? body.subarray(6) : body);
    }
    at = end + (length & 1);
  }
  if (!size || !hasPixels) return refuse({ code: 'damaged', detail: 'no picture data' });
  const refusal = tooLarge(size.storedWidthPx, size.storedHeightPx);
  if (refusal) return refusal;
  const head = joinBytes([bytes.subarray(0, 12)]);
  viewOf(head).setUint32(4, 4 + parts.reduce((sum, part) => sum + part.length, 0), true);
  return {
    ok: true,
    info: {
      kind: 'webp',
      ...size,
      orientation,
      hasAlpha,
      embeddedProfile,
      pictureParts: [head, ...parts],
    },
  };
}

const uint24 = (bytes: Uint8Array, at: number): number =>
  bytes[at]! | (bytes[at + 1]! << 8) | (bytes[at + 2]! << 16);

interface OwnSize {
  readonly storedWidthPx: number;
  readonly storedHeightPx: number;
  readonly hasAlpha: boolean;
}

/** @see RFC 6386, section 9.1 */
function sizeOfLossy(body: Uint8Array): OwnSize | null {
  if (body.length < 10 || body[3] !== 0x9d || body[4] !== 0x01 || body[5] !== 0x2a) return null;
  const view = viewOf(body);
  return {
    storedWidthPx: view.getUint16(6, true) & 0x3fff,
    storedHeightPx: view.getUint16(8, true) & 0x3fff,
    hasAlpha: false,
  };
}

/** @see RFC 9649, section 3.4 */
function sizeOfLossless(body: Uint8Array): OwnSize | null {
  if (body.length < 5 || body[0] !== 0x2f) return null;
  const bits = viewOf(body).getUint32(1, true);
  return {
    storedWidthPx: 1 + (bits & 0x3fff),
    storedHeightPx: 1 + ((bits >>> 14) & 0x3fff),
    hasAlpha: ((bits >>> 28) & 1) === 1,
  };
}
