import { readUtcOffsetMinutes } from '../trial/localTime.ts';
import { exifTags, exifText, positiveNumber } from './exifTags.ts';

/** What a photo's EXIF says of the camera and of the picture it wrote; every fact is null where it says nothing. */
export interface CameraFacts {
  /** Whether the file has any EXIF: programs that pass photos on often take it out. */
  readonly hasExif: boolean;
  /** Maker and model as written, e.g. for telling two phones apart. */
  readonly device: string | null;
  /** How far the camera's clock was ahead of UTC, minutes. */
  readonly utcOffsetMinutes: number | null;
  readonly focalLength35Mm: number | null;
  /** 1 is none; cameras write 0 for "not used", which is null here. */
  readonly digitalZoomRatio: number | null;
  /** Size of the picture the camera wrote, before it is turned upright. */
  readonly writtenWidthPx: number | null;
  readonly writtenHeightPx: number | null;
}

/**
 * Reads facts of the camera; never throws.
 *
 * @see Exif 2.32 (CIPA DC-008), tags 0x010F, 0x0110, 0x9011, 0xA405, 0xA404, 0xA002, 0xA003
 */
export function readCameraFacts(bytes: Uint8Array): CameraFacts {
  const tags = exifTags(bytes);
  const device = [exifText(tags?.Make?.value), exifText(tags?.Model?.value)]
    .filter((text) => text !== null)
    .join(' ');
  return {
    hasExif: tags !== undefined && Object.keys(tags).length > 0,
    device: device === '' ? null : device,
    utcOffsetMinutes: readUtcOffsetMinutes(exifText(tags?.OffsetTimeOriginal?.value) ?? ''),
    focalLength35Mm: positiveNumber(tags?.FocalLengthIn35mmFilm?.value),
    digitalZoomRatio: positiveNumber(tags?.DigitalZoomRatio?.value),
    writtenWidthPx: positiveNumber(tags?.PixelXDimension?.value),
    writtenHeightPx: positiveNumber(tags?.PixelYDimension?.value),
  };
}
