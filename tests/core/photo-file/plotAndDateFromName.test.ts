import { expect, test } from 'vitest';
import { plotAndDateFromName } from '../../../src/core/photo-file/plotAndDateFromName.ts';

test.each([
  ['2027-04-12_101.jpg', '101', '2027-04-12'],
  ['spring/2027-04-12_101.JPEG', '101', '2027-04-12'],
  ['C:\\photos\\2028-02-29_A-12.b.png', 'A-12.b', '2028-02-29'],
  ['2027-04-12_Östra3.jpg', 'Östra3', '2027-04-12'],
])('%s is plot %s on %s', (name, plot, ratingDate) => {
  expect(plotAndDateFromName(name)).toEqual({ plot, ratingDate });
});

test.each([
  '2027-02-29_101.jpg',
  '2027-13-01_101.jpg',
  '0000-01-01_101.jpg',
  '2027-4-12_101.jpg',
  '20270412_101.jpg',
  '2027-04-12_.jpg',
  '2027-04-12_101',
  '2027-04-12_101_b.jpg',
  'IMG_2027-04-12_101.jpg',
  '',
])('%s tells nothing', (name) => {
  expect(plotAndDateFromName(name)).toEqual({ plot: null, ratingDate: null });
});
