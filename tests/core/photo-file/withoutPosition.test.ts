import ExifReader from 'exifreader';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import { decodePhoto } from '../../../src/cli/decodePhoto.ts';
import { withoutPosition } from '../../../src/core/photo-file/withoutPosition.ts';

const GPS = {
  GPSLatitudeRef: 'S',
  GPSLatitude: '37/1 48/1 30/1',
  GPSLongitudeRef: 'E',
  GPSLongitude: '144/1 57/1 0/1',
};

/** A picture whose EXIF names a place, an invented one. */
async function located(format: 'jpeg' | 'png' | 'webp'): Promise<Uint8Array<ArrayBuffer>> {
  const picture = sharp({ create: { width: 80, height: 70, channels: 3, background: '#4a7a2c' } });
  const bytes = await picture
    .withExif({ IFD0: { Make: 'Maker' }, IFD3: GPS })
    .toFormat(format)
    .toBuffer();
  return new Uint8Array(bytes);
}

const placeIn = (bytes: Uint8Array) => {
  const { gps } = ExifReader.load(bytes.buffer as ArrayBuffer, { expanded: true });
  return gps?.Latitude ?? null;
};

describe('a photo without its position', () => {
  it.each(['jpeg', 'png', 'webp'] as const)(
    '%s: the place is gone, all else stays, pixels included',
    async (format) => {
      const file = await located(format);
      expect(placeIn(file)).toBeCloseTo(-37.8083, 3);
      const { bytes, hadPosition } = withoutPosition(file);
      expect(hadPosition).toBe(true);
      expect(placeIn(bytes)).toBeNull();
      expect(bytes.length).toBe(file.length);
      expect(ExifReader.load(bytes.buffer as ArrayBuffer).Make?.description).toBe('Maker');
      const [before, after] = [await decodePhoto(file), await decodePhoto(bytes)];
      expect(after).toEqual(before);
      expect(after.ok).toBe(true);
    },
  );

  it('leaves a photo alone that names no place', async () => {
    const plain = new Uint8Array(
      await sharp(await located('jpeg'))
        .jpeg()
        .toBuffer(),
    );
    const { bytes, hadPosition } = withoutPosition(plain);
    expect(hadPosition).toBe(false);
    expect(bytes).toBe(plain);
  });

  it('blanks the place in XMP and in the film behind a photo', () => {
    const text =
      'x exif:GPSLatitude="37,48.5S" y <exif:GPSLongitude>144,57E</exif:GPSLongitude> \u00a9xyz\0\0\0\0-37.80+144.95/ end';
    const { bytes } = withoutPosition(Uint8Array.from(text, (character) => character.charCodeAt(0)));
    const left = String.fromCharCode(...bytes);
    expect(left).not.toMatch(/37|48|144|57|95/);
    expect(left).toContain('</exif:GPSLongitude>');
    expect(left.endsWith('/ end')).toBe(true);
  });
});
