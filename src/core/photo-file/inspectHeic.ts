import { fourCharacters, hasText, viewOf } from './bytes.ts';
import { type PhotoFileInspection, refuse, tooLarge } from './photoFileInfo.ts';

const HEIC_BRANDS = ['heic', 'heix', 'hevc', 'hevx', 'heim', 'heis', 'mif1', 'msf1'];
const AVIF_BRANDS = ['avif', 'avis'];

/**
 * A file of the ISO base media family, told by the brands in its first box; sizes are those its head declares.
 *
 * HEIC goes on to the decoder whole: only some browsers have one.
 *
 * @see ISO/IEC 14496-12, section 4.3; ISO/IEC 23008-12, section 6.5.3 (ispe)
 */
export function inspectIsoMedia(bytes: Uint8Array): PhotoFileInspection {
  const view = viewOf(bytes);
  const headEnd = Math.min(view.getUint32(0), bytes.length);
  const brands: string[] = [];
  for (let at = 8; at + 4 <= headEnd; at += 4) {
    if (at !== 12) brands.push(fourCharacters(bytes, at)); // 12 is the minor version
  }
  if (brands.some((brand) => AVIF_BRANDS.includes(brand))) {
    return refuse({ code: 'unsupported-kind', kind: 'AVIF' });
  }
  if (!brands.some((brand) => HEIC_BRANDS.includes(brand))) {
    return refuse({ code: 'unsupported-kind', kind: 'video or another ISO media file' });
  }
  const size = largestExtent(bytes, headEnd);
  if (!size) return refuse({ code: 'truncated' });
  const refusal = tooLarge(size.storedWidthPx, size.storedHeightPx);
  if (refusal) return refusal;
  return {
    ok: true,
    info: {
      kind: 'heic',
      ...size,
      orientation: 1,
      hasAlpha: false,
      embeddedProfile: null,
      pictureParts: [bytes],
    },
  };
}

/** The largest picture that the meta box declares; it stands among the boxes that follow the first. */
function largestExtent(
  bytes: Uint8Array,
  from: number,
): { storedWidthPx: number; storedHeightPx: number } | null {
  const view = viewOf(bytes);
  let boxAt = from;
  while (boxAt + 8 <= bytes.length && !hasText(bytes, boxAt + 4, 'meta')) {
    const length = view.getUint32(boxAt);
    if (length < 8) return null; // lengths of 64 bits belong to boxes that no photo has before its meta box
    boxAt += length;
  }
  if (boxAt + 8 > bytes.length) return null;
  const metaEnd = boxAt + view.getUint32(boxAt);
  if (metaEnd > bytes.length) return null;
  let largest = { storedWidthPx: 0, storedHeightPx: 0 };
  for (let at = boxAt + 8; at + 16 <= metaEnd; at += 1) {
    if (!hasText(bytes, at, 'ispe')) continue;
    const size = { storedWidthPx: view.getUint32(at + 8), storedHeightPx: view.getUint32(at + 12) };
    if (size.storedWidthPx * size.storedHeightPx > largest.storedWidthPx * largest.storedHeightPx)
      largest = size;
  }
  return largest.storedWidthPx > 0 ? largest : null;
}
