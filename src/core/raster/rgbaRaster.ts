/**
 * A decoded photo: upright (EXIF orientation applied), sRGB, 8 bits a channel.
 *
 * Row-major, 4 bytes a pixel (red, green, blue, alpha): index = (y * widthPx + x) * 4.
 * Alpha is 255 where the photo shows something and 0 where it was transparent; a transparent pixel is
 * black and is never measured.
 */
export interface RgbaRaster {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly data: Uint8ClampedArray<ArrayBuffer>;
}
