import { expect, test } from 'vitest';
import { datesOfSeveralCameras } from '../../../../src/app/screens/plan/datesOfSeveralCameras.ts';
import type { PlacedTrialPhoto } from '../../../../src/app/session/placePhotos.ts';
import type { PhotoSummary } from '../../../../src/app/session/session.ts';

test('dates whose photos come from several cameras, most photos first; silent photos count for none', () => {
  const taken = [
    ['2027-04-12', 'Maker A'],
    ['2027-04-12', 'Maker B'],
    ['2027-04-12', 'Maker B'],
    ['2027-04-12', null],
    ['2027-05-17', 'Maker A'],
    ['2027-05-17', null],
    [null, 'Maker B'],
  ] as const;
  const photos = taken.map(
    ([, device], index) =>
      ({ id: String(index), camera: { device, utcOffsetMinutes: null } }) as PhotoSummary,
  );
  const placed = taken.map(
    ([ratingDate], index) => [String(index), { ratingDate } as PlacedTrialPhoto] as const,
  );
  const ratingDates = ['2027-04-12', '2027-05-17'];
  expect(datesOfSeveralCameras(photos, { photos: new Map(placed), ratingDates })).toEqual([
    {
      ratingDate: '2027-04-12',
      cameras: [
        { device: 'Maker B', photos: 2 },
        { device: 'Maker A', photos: 1 },
      ],
    },
  ]);
});
