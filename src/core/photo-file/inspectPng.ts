import { fourCharacters, viewOf } from './bytes.ts';
import { crc32 } from './crc32.ts';
import { exifOrientation, type Orientation } from './exifOrientation.ts';
import { type PhotoFileInfo, type PhotoFileInspection, refuse, tooLarge } from './photoFileInfo.ts';

/** Bit depths that each colour type allows. @see PNG 3rd edition (W3C), table 8 */
const BIT_DEPTHS: Readonly<Record<number, readonly number[]>> = {
  0: [1, 2, 4, 8, 16],
  2: [8, 16],
  3: [1, 2, 4, 8],
  4: [8, 16],
  6: [8, 16],
};
const GREYSCALE_TYPES = [0, 4];
/** Chunks a decoder needs for the pixels of the first picture. */
const PIXEL_CHUNKS = ['IHDR', 'PLTE', 'tRNS', 'IDAT', 'IEND'];
/** gAMA of sRGB's approximate power 2.2, times 100000, and how far a writer may be from it. */
const SRGB_GAMMA = 45455;
const GAMMA_TOLERANCE = 1000;
/** Deflate's own limit: 258 bytes from two bits. */
const LARGEST_DEFLATE_RATIO = 1032;

/** Walks the chunks of a PNG file and checks the sum of each. */
export function inspectPng(bytes: Uint8Array): PhotoFileInspection {
  const view = viewOf(bytes);
  const parts: Uint8Array[] = [bytes.subarray(0, 8)];
  let size: { storedWidthPx: number; storedHeightPx: number } | null = null;
  let colourType = -1;
  let hasAlpha = false;
  let orientation: Orientation = 1;
  let embeddedProfile: PhotoFileInfo['embeddedProfile'] = null;
  let gamma: number | null = null;
  let namedSrgb = false;
  let pixelBytes = 0;
  let at = 8;
  for (;;) {
    if (at + 12 > bytes.length) return refuse({ code: 'truncated' });
    const length = view.getUint32(at);
    const type = fourCharacters(bytes, at + 4);
    const end = at + 12 + length;
    if (!/^[A-Za-z]{4}$/.test(type))
      return refuse({ code: 'damaged', detail: `no chunk name at byte ${at + 4}` });
    if (end > bytes.length) return refuse({ code: 'truncated' });
    const body = bytes.subarray(at + 8, end - 4);
    if (crc32(bytes.subarray(at + 4, end - 4)) !== view.getUint32(end - 4)) {
      return refuse({ code: 'damaged', detail: `wrong check sum of ${type} at byte ${at}` });
    }
    if ((type === 'IHDR') !== (size === null)) {
      return refuse({ code: 'damaged', detail: `${type} at byte ${at} where IHDR belongs first, and once` });
    }
    if (type === 'IHDR') {
      colourType = body[9] ?? -1;
      const depth = body[8]!;
      if (length !== 13 || !BIT_DEPTHS[colourType]?.includes(depth)) {
        return refuse({ code: 'damaged', detail: `colour type ${colourType} with ${depth} bits` });
      }
      if (GREYSCALE_TYPES.includes(colourType)) return refuse({ code: 'greyscale' });
      size = { storedWidthPx: viewOf(body).getUint32(0), storedHeightPx: viewOf(body).getUint32(4) };
      const refusal = tooLarge(size.storedWidthPx, size.storedHeightPx);
      if (refusal) return refusal;
      hasAlpha = colourType === 6;
    } else if (type === 'tRNS') {
      hasAlpha = true;
    } else if (type === 'IDAT') {
      pixelBytes += length;
    } else if (type === 'sRGB') {
      namedSrgb = true;
    } else if (type === 'gAMA' && length === 4) {
      gamma = viewOf(body).getUint32(0);
    } else if (type === 'iCCP') {
      const nameEnd = body.indexOf(0);
      if (nameEnd > 0) embeddedProfile = { bytes: body.subarray(nameEnd + 2), compressed: true };
    } else if (type === 'cICP' && !(body[0] === 1 && body[1] === 13)) {
      return refuse({ code: 'unsupported-kind', kind: 'PNG in colours beyond sRGB (cICP)' });
    } else if (type === 'eXIf') {
      orientation = exifOrientation(body);
    }
    if (PIXEL_CHUNKS.includes(type)) parts.push(bytes.subarray(at, end));
    at = end;
    if (type === 'IEND') break;
  }
  if (!size || pixelBytes === 0) return refuse({ code: 'damaged', detail: 'no picture data' });
  // at least one bit a pixel before compression
  if (pixelBytes < (size.storedWidthPx * size.storedHeightPx) / 8 / LARGEST_DEFLATE_RATIO) {
    return refuse({ code: 'damaged', detail: `${pixelBytes} bytes of picture data for the size declared` });
  }
  const gammaCounts = gamma !== null && !namedSrgb && !embeddedProfile;
  if (gammaCounts && Math.abs(gamma! - SRGB_GAMMA) > GAMMA_TOLERANCE) {
    return refuse({ code: 'unsupported-kind', kind: `PNG with gamma ${gamma! / 100_000}` });
  }
  return {
    ok: true,
    info: {
      kind: 'png',
      ...size,
      orientation,
      hasAlpha,
      embeddedProfile,
      pictureParts: parts,
    },
  };
}
