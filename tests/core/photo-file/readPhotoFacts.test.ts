import sharp from 'sharp';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { readPhotoFacts } from '../../../src/core/photo-file/readPhotoFacts.ts';
import { referenceValues } from '../../support/referenceValues.ts';
import { colourfulPicture } from '../../support/testPictures.ts';

interface ExifReference {
  time_examples: { DateTimeOriginal: string; local_date: string | null }[];
}

const reference = referenceValues<ExifReference>('exif.json');

/** A JPEG whose camera wrote this time; sharp writes EXIF through libexif. */
const photoTakenAt = (time: string, more: Record<string, string> = {}) =>
  colourfulPicture(80, 80)
    .withExif({ IFD2: { DateTimeOriginal: time, ...more } })
    .jpeg()
    .toBuffer();

describe('the day of a photo', () => {
  afterEach(() => vi.unstubAllEnvs());

  test.each(['America/New_York', 'Pacific/Auckland'])('is the one written, in %s', async (zone) => {
    vi.stubEnv('TZ', zone);
    for (const { DateTimeOriginal, local_date } of reference.time_examples) {
      const facts = readPhotoFacts(await photoTakenAt(DateTimeOriginal));
      expect({ DateTimeOriginal, day: facts.captureDay }).toEqual({ DateTimeOriginal, day: local_date });
    }
  });

  test('the text stays as the camera wrote it', async () => {
    expect(readPhotoFacts(await photoTakenAt('2026:05:14 23:40:00'))).toMatchObject({
      capturedAsWritten: '2026:05:14 23:40:00',
      captureTime: '23:40:00',
      notes: [],
    });
  });

  test.each([
    '0000:00:00 00:00:00',
    '1926:05:14 09:00:00',
    '2026:02:30 09:00:00',
    '2026:13:01 09:00:00',
    '2026:05:14 25:00:00',
    '20260514',
    '99999999999999999999999999',
  ])('%s gives no day and a note', async (time) => {
    expect(readPhotoFacts(await photoTakenAt(time))).toMatchObject({
      captureDay: null,
      notes: [{ code: 'capture-time-nonsense', asWritten: time }],
    });
  });

  test('is not the day the file was changed', async () => {
    const photo = await colourfulPicture(80, 80)
      .withExif({ IFD0: { DateTime: '2026:05:14 09:00:00' } })
      .jpeg()
      .toBuffer();
    expect(readPhotoFacts(photo)).toMatchObject({ captureDay: null, notes: [] });
  });
});

test('the focal length', async () => {
  const photo = await photoTakenAt('2026:05:14 09:00:00', {
    FocalLength: '43/10',
    FocalLengthIn35mmFilm: '26',
  });
  expect(readPhotoFacts(photo)).toMatchObject({ focalLengthMm: 4.3, focalLength35Mm: 26 });
});

test('a photo without EXIF gives nulls and says so', async () => {
  const plain = await sharp({ create: { width: 70, height: 70, channels: 3, background: '#3a5' } })
    .jpeg()
    .toBuffer();
  expect(readPhotoFacts(plain)).toMatchObject({ captureDay: null, notes: [{ code: 'no-camera-facts' }] });
  expect(readPhotoFacts(new Uint8Array())).toMatchObject({ notes: [{ code: 'no-camera-facts' }] });
});

test('photos of the sample trial carry their time', async () => {
  const { readFile } = await import('node:fs/promises');
  const photo = await readFile('sample-images/photos/2027-04-12_101.jpg');
  expect(readPhotoFacts(photo)).toMatchObject({ captureDay: '2027-04-12', captureTime: '09:14:20' });
});
