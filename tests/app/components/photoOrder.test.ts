import { expect, test } from 'vitest';
import { groupPhotos, orderPhotos } from '../../../src/app/components/photoOrder.ts';

const photo = (name: string, plot: string | null, ratingDate: string | null) => ({ name, plot, ratingDate });
const photos = [
  photo('e', null, null),
  photo('d', '10', '2027-05-17'),
  photo('c', '9', '2027-05-17'),
  photo('b', '10', '2027-04-12'),
  photo('a', '9', null),
];
const names = (ordered: readonly { name: string }[]) => ordered.map(({ name }) => name).join('');

test('by date, then plot by number; unknown last', () => {
  expect(names(orderPhotos(photos, 'date'))).toBe('bcdae');
});

test('by plot, then date; unknown last', () => {
  expect(names(orderPhotos(photos, 'plot'))).toBe('cabde');
});

test('groups keep every photo once', () => {
  expect(groupPhotos(photos, 'date').map(({ key, photos: members }) => [key, names(members)])).toEqual([
    ['2027-04-12', 'b'],
    ['2027-05-17', 'cd'],
    [null, 'ae'],
  ]);
  expect(groupPhotos(photos, 'plot').map(({ key, photos: members }) => [key, names(members)])).toEqual([
    ['9', 'ca'],
    ['10', 'bd'],
    [null, 'e'],
  ]);
});

test('photos of one plot and day stand by name', () => {
  expect(names(orderPhotos([photo('p10', '1', null), photo('p2', '1', null)], 'date'))).toBe('p2p10');
});
