import { expect, test } from 'vitest';
import { addDays, dayNumber, daysBetween, isCalendarDay } from '../../../src/core/trial/calendarDay.ts';
import { readLocalTime, readUtcOffsetMinutes } from '../../../src/core/trial/localTime.ts';

test.each([
  ['2027-04-12', true],
  ['2028-02-29', true],
  ['2027-02-29', false],
  ['2100-02-29', false],
  ['2027-13-01', false],
  ['2027-04-31', false],
  ['2027-4-1', false],
  ['1899-12-31', false],
  ['2227-04-12', false],
  ['', false],
])('%s is a day: %s', (text, expected) => {
  expect(isCalendarDay(text)).toBe(expected);
});

test('days are counted over the change of daylight-saving time and of the year', () => {
  // Between these days clocks change in Europe, North America and Australia; a day more is a day more.
  expect(addDays('2027-03-27', 2)).toBe('2027-03-29');
  expect(addDays('2027-03-13', 1)).toBe('2027-03-14');
  expect(daysBetween('2027-10-30', '2027-11-08')).toBe(9);
  expect(addDays('2027-03-08', -12)).toBe('2027-02-24');
  expect(daysBetween('2027-12-31', '2028-03-01')).toBe(61);
});

test('days since 1970 as Python has them', () => {
  // python3 -c "import datetime as d; print((d.date(2027,4,12)-d.date(1970,1,1)).days)"
  expect(dayNumber('2027-04-12')).toBe(20920);
  expect(() => dayNumber('2027-02-30')).toThrow('YYYY-MM-DD');
});

test.each([
  ['2027:04:12 09:14:20', '2027-04-12', 9 * 3600 + 14 * 60 + 20],
  ['2027:03:28 02:30:00', '2027-03-28', 2 * 3600 + 30 * 60],
  ['2027-04-12T23:59:59', '2027-04-12', 86399],
  ['2027:04:12 09:14:20\0', '2027-04-12', 33260],
])('Exif time %j is taken as written', (written, day, secondOfDay) => {
  expect(readLocalTime(written)).toEqual({ day, secondOfDay });
});

test.each([
  '    :  :     :  :  ',
  '0000:00:00 00:00:00',
  '2027:13:12 09:14:20',
  '2027:04:12 24:00:00',
  '1827:04:12 09:14:20',
  '2027:04:12',
  'yesterday',
])('Exif time %j is none', (written) => {
  expect(readLocalTime(written)).toBeNull();
});

test('offsets from UTC', () => {
  expect(['+10:00', '-03:30', '+00:00', '   :  ', '+1000'].map(readUtcOffsetMinutes)).toEqual([
    600,
    -210,
    0,
    null,
    null,
  ]);
});
