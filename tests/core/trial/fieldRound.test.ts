import { expect, test } from 'vitest';
import { type FieldPhoto, fieldStops, nextOpenStop } from '../../../src/core/trial/fieldRound.ts';
import { reEntryAt } from '../../../src/core/trial/reEntry.ts';
import { walkingOrder } from '../../../src/core/trial/walkingOrder.ts';
import { samplePlan, sampleTrial } from './samplePlan.ts';

const DATE = '2027-05-17';
const plots = walkingOrder(samplePlan().plots);
const photo = (id: string, plot: string, place: number | null = null, ratingDate = DATE): FieldPhoto => ({
  id,
  plot,
  place,
  ratingDate,
});

test('the round is the walk of the sample trial, places within plots, the photo added last counting', () => {
  const one = fieldStops(plots, 1, DATE, [photo('a', '102'), photo('b', '102')], []);
  expect(one.map(({ plot }) => plot.plot)).toEqual(sampleTrial.walkingOrder);
  expect(one.map(({ photo: id }) => id).slice(0, 3)).toEqual([null, 'b', null]);

  const two = fieldStops(plots, 2, DATE, [photo('a', '101', 2), photo('b', '101', 1, '2027-04-12')], []);
  expect(two.slice(0, 3).map(({ plot, place, photo: id }) => [plot.plot, place, id])).toEqual([
    ['101', 1, null],
    ['101', 2, 'a'],
    ['102', 1, null],
  ]);
});

test('the way goes on to the next open stop, comes back to those passed by, and ends when all are settled', () => {
  const skipped = [{ plot: '103', place: 1, reason: 'standing water' }];
  const stops = fieldStops(plots, 1, DATE, [photo('a', '102')], skipped);
  expect(nextOpenStop(stops, -1)).toBe(0);
  expect(nextOpenStop(stops, 0)).toBe(3);
  expect(nextOpenStop(stops, 15)).toBe(0);
  const all = plots.map(({ plot }) => photo(plot, plot));
  expect(nextOpenStop(fieldStops(plots, 1, DATE, all, []), 4)).toBeNull();
  // a photo taken of a place that was left out counts
  const taken = fieldStops(plots, 1, DATE, [photo('a', '103')], skipped)[2]!;
  expect([taken.photo, taken.skipped]).toEqual(['a', 'standing water']);
});

test('plots may be stepped on from the very minute of the re-entry time', () => {
  const last = {
    application: 'A1',
    day: '2027-05-16',
    finishedAt: '09:30',
    products: ['coded product L-31'],
    reEntryHours: 24,
    enterFrom: { day: '2027-05-17', time: '09:30' },
  };
  expect(reEntryAt(last, '2027-05-16', '23:00')).toBe('not-passed');
  expect(reEntryAt(last, '2027-05-17', '09:29')).toBe('not-passed');
  expect(reEntryAt(last, '2027-05-17', '09:30')).toBe('passed');
  expect(reEntryAt(last, '2027-05-18', '00:00')).toBe('passed');
  expect(reEntryAt({ ...last, enterFrom: null }, '2027-06-30', '12:00')).toBe('unknown');
});
