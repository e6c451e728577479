import type { Orientation } from './exifOrientation.ts';
import type { PhotoProblem } from './photoProblem.ts';

/** What the head of a picture file says, found without decoding a pixel. */
export interface PhotoFileInfo {
  readonly kind: 'jpeg' | 'png' | 'webp' | 'heic';
  /** Size as stored, before the orientation is applied. */
  readonly storedWidthPx: number;
  readonly storedHeightPx: number;
  /** The turn that `finishRaster` makes; 1 for HEIC, whose decoder makes it. */
  readonly orientation: Orientation;
  /** Whether pixels may be transparent. */
  readonly hasAlpha: boolean;
  /** The ICC profile in the file, in a PNG compressed by zlib; null where the pixels are sRGB, named or assumed. */
  readonly embeddedProfile: { readonly bytes: Uint8Array; readonly compressed: boolean } | null;
  /**
   * The same picture for a decoder, in pieces of the file: pixels and nothing else.
   *
   * Colour profiles, orientation, gain maps, thumbnails and texts are left out, so that every decoder gives the same bytes: none
   * gets to convert colours or turn the picture in its own way. `finishRaster` does what is left to do.
   */
  readonly pictureParts: readonly Uint8Array[];
}

export type PhotoFileInspection =
  | { readonly ok: true; readonly info: PhotoFileInfo }
  | { readonly ok: false; readonly problem: PhotoProblem };

export const refuse = (problem: PhotoProblem): PhotoFileInspection => ({ ok: false, problem });

/** Above this a photo is refused before any memory is taken: decoded it would need 400 MB, and planes on top. */
export const LARGEST_PHOTO_MEGAPIXELS = 100;

/** The refusal of a declared size, or null. */
export function tooLarge(widthPx: number, heightPx: number): PhotoFileInspection | null {
  const limitMegapixels = LARGEST_PHOTO_MEGAPIXELS;
  if (widthPx * heightPx <= limitMegapixels * 1e6) return null;
  return refuse({ code: 'too-large', widthPx, heightPx, limitMegapixels });
}
