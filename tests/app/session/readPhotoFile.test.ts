import { expect, test } from 'vitest';
import { readPhotoFile } from '../../../src/app/session/readPhotoFile.ts';
import { colourfulPicture } from '../../support/testPictures.ts';

/** A photo with these EXIF entries, read as the page reads it. */
async function read(name: string, exif: Parameters<ReturnType<typeof colourfulPicture>['withExif']>[0]) {
  const jpeg = await colourfulPicture(80, 80).withExif(exif).jpeg().toBuffer();
  const answer = await readPhotoFile(new File([new Uint8Array(jpeg)], name));
  if (!answer.ok) throw new Error(answer.problem.code);
  return answer.photo;
}

const taken = { DateTimeOriginal: '2027:05:17 09:14:20', OffsetTimeOriginal: '+10:00' };

test('time, clock offset and camera are known as soon as a photo is read in', async () => {
  expect(await read('IMG_1.jpg', { IFD0: { Make: 'Maker', Model: 'A 1' }, IFD2: taken })).toMatchObject({
    takenAt: '2027-05-17T09:14:20',
    camera: { device: 'Maker A 1', utcOffsetMinutes: 600 },
    plot: null,
    ratingDate: '2027-05-17',
    namedBy: 'exif',
  });
});

test('what the name says of plot and date stands before what the camera says', async () => {
  expect(await read('2027-05-18_101.jpg', { IFD2: taken })).toMatchObject({
    takenAt: '2027-05-17T09:14:20',
    plot: '101',
    ratingDate: '2027-05-18',
    namedBy: 'file-name',
  });
});

test('a time of another century dates nothing and is kept as it was written', async () => {
  expect(await read('IMG_2.jpg', { IFD2: { DateTimeOriginal: '1926:05:14 09:00:00' } })).toMatchObject({
    takenAt: null,
    ratingDate: null,
    namedBy: null,
    camera: { device: null, utcOffsetMinutes: null, unreadableTime: '1926:05:14 09:00:00' },
  });
});
