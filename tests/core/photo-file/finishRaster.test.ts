import sharp from 'sharp';
import { expect, test } from 'vitest';
import { decodePhoto } from '../../../src/cli/decodePhoto.ts';
import type { Orientation } from '../../../src/core/photo-file/exifOrientation.ts';
import { turnUpright } from '../../../src/core/photo-file/finishRaster.ts';
import { referenceValues } from '../../support/referenceValues.ts';
import { colourfulPicture } from '../../support/testPictures.ts';

interface ExifReference {
  orientation: {
    value: number;
    to_show: string;
    stored_size: number[];
    shown_size: number[];
    stored_pixel_1_0_is_shown_at: number[];
    stored_pixel_3_2_is_shown_at: number[];
  }[];
}

const reference = referenceValues<ExifReference>('exif.json');

test.each(reference.orientation)('orientation $value: $to_show', (example) => {
  const [widthPx, heightPx] = example.stored_size as [number, number];
  const data = new Uint8ClampedArray(widthPx * heightPx * 4);
  data.fill(1, 4 * (0 * widthPx + 1), 4 * (0 * widthPx + 2)); // stored pixel 1, 0
  data.fill(2, 4 * (2 * widthPx + 3), 4 * (2 * widthPx + 4)); // stored pixel 3, 2
  const shown = turnUpright({ widthPx, heightPx, data }, example.value as Orientation);
  expect([shown.widthPx, shown.heightPx]).toEqual(example.shown_size);
  const at = ([x, y]: number[]) => shown.data[4 * (y! * shown.widthPx + x!)];
  expect(at(example.stored_pixel_1_0_is_shown_at)).toBe(1);
  expect(at(example.stored_pixel_3_2_is_shown_at)).toBe(2);
});

test('photos are turned as libvips turns them', async () => {
  for (let orientation = 1; orientation <= 8; orientation += 1) {
    const photo = await colourfulPicture().withMetadata({ orientation }).jpeg({ quality: 90 }).toBuffer();
    const decoded = await decodePhoto(photo);
    if (!decoded.ok) throw new Error(decoded.problem.code);
    const { data, info } = await sharp(photo)
      .rotate()
      .ensureAlpha()
      .raw()
      .toBuffer({ resolveWithObject: true });
    const { raster } = decoded;
    expect([orientation, raster.widthPx, raster.heightPx]).toEqual([orientation, info.width, info.height]);
    expect(Buffer.compare(Buffer.from(raster.data), data)).toBe(0);
  }
});
