import { expect, test } from 'vitest';
import { readCameraFacts } from '../../../src/core/photo-file/readCameraFacts.ts';
import { jpegQuality } from '../../../src/core/quality/jpegQuality.ts';
import { mixedDevices } from '../../../src/core/quality/mixedDevices.ts';
import { colourfulPicture } from '../../support/testPictures.ts';

// libjpeg's own scaling of its tables, by way of libvips; entries are rounded, and kept within 255 below 20
test.each([20, 30, 50, 60, 75, 85, 90, 95])('libjpeg quality %i is read back', async (quality) => {
  const jpeg = await colourfulPicture(64, 64).jpeg({ quality }).toBuffer();
  expect(Math.abs(jpegQuality(jpeg)! - quality)).toBeLessThanOrEqual(1);
});

test('a mozjpeg-like table order, fill bytes and 16-bit entries', () => {
  const table8 = [0xff, 0xd8, 0xff, 0xff, 0xdb, 0, 67, 0, ...Array(64).fill(1), 0xff, 0xda, 0, 2];
  expect(jpegQuality(Uint8Array.from(table8))).toBe(99);
  const chromaFirst = [0xff, 0xd8, 0xff, 0xdb, 0, 132, 1, ...Array(64).fill(9), 0, ...Array(64).fill(1)];
  expect(jpegQuality(Uint8Array.from(chromaFirst))).toBe(99);
  const table16 = [0xff, 0xd8, 0xff, 0xdb, 0, 131, 16, ...Array(64).fill([1, 0]).flat(), 0xff, 0xda, 0, 2];
  // 64 * 256 over the standard sum of 3688 is 444 %, quality 5000 / 444
  expect(jpegQuality(Uint8Array.from(table16))).toBe(11);
});

test('files without a table have no quality', async () => {
  expect(jpegQuality(new Uint8Array())).toBeNull();
  expect(jpegQuality(await colourfulPicture(64, 64).png().toBuffer())).toBeNull();
  expect(jpegQuality(Uint8Array.from([0xff, 0xd8, 0xff, 0xda, 0, 2]))).toBeNull();
  expect(jpegQuality(Uint8Array.from([0xff, 0xd8, 0xff, 0xdb, 0, 67, 0, 1, 2]))).toBeNull();
});

test('facts of the camera', async () => {
  const photo = await colourfulPicture(64, 64)
    .withExif({
      IFD0: { Make: 'Example', Model: 'Phone A' },
      IFD2: {
        FocalLengthIn35mmFilm: '13',
        DigitalZoomRatio: '2/1',
        PixelXDimension: '4000',
        PixelYDimension: '3000',
      },
    })
    .jpeg()
    .toBuffer();
  expect(readCameraFacts(photo)).toMatchObject({
    hasExif: true,
    device: 'Example Phone A',
    focalLength35Mm: 13,
    digitalZoomRatio: 2,
  });
  expect(readCameraFacts(await colourfulPicture(64, 64).jpeg().toBuffer())).toMatchObject({ device: null });
  expect(readCameraFacts(new Uint8Array([1, 2, 3]))).toMatchObject({ hasExif: false, device: null });
});

test('cameras of one date', () => {
  const photos = (...devices: (string | null)[]) =>
    devices.map((device, k) => ({ photo: `p${k}.jpg`, device }));
  expect(mixedDevices(photos('A', 'A', null))).toBeNull();
  expect(mixedDevices([])).toBeNull();
  expect(mixedDevices(photos('B', 'A', null, 'A'))).toEqual({
    code: 'mixed-devices',
    devices: [
      { device: 'A', photos: 2 },
      { device: 'B', photos: 1 },
    ],
  });
});
