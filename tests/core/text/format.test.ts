import { afterEach, describe, expect, test } from 'vitest';
import {
  chooseLocale,
  formatBytes,
  formatCount,
  formatDay,
  formatDecimals,
  formatLength,
  formatPercent,
  formatQuantity,
  formatTime,
  setLocale,
} from '../../../src/core/text/format.ts';

describe('formatPercent', () => {
  test.each([
    [0, '0'],
    [0.0004, '<0.1'],
    [0.0005, '0.1'],
    [0.0647, '6.5'],
    [0.09949, '9.9'],
    [0.0995, '10'],
    [0.1, '10'],
    [0.145, '15'],
    [0.7709, '77'],
    [0.9949, '99'],
    [0.9951, '>99'],
    [1, '100'],
  ])('%f reads %s', (fraction, shown) => expect(formatPercent(fraction)).toBe(shown));

  test('refuses what is no share', () => {
    for (const wrong of [-0.01, 1.01, Number.NaN]) expect(() => formatPercent(wrong)).toThrow(RangeError);
  });

  test('shows one decimal exactly below ten, over the whole range', () => {
    for (let i = 1; i < 1000; i += 1) {
      const shown = formatPercent(i / 1000);
      expect(shown.includes('.'), `${i / 1000} reads ${shown}`).toBe(i / 10 < 9.95);
    }
  });
});

describe('formatDay', () => {
  test('keeps the day in every time zone', () => {
    expect(formatDay('2027-04-12')).toBe('12 April 2027');
    expect(formatDay('2027-01-01', 'short')).toBe('1 Jan 2027');
  });

  test.each(['2027-02-30', '12.4.2027', '2027-4-12', ''])('refuses "%s"', (day) => {
    expect(() => formatDay(day)).toThrow(RangeError);
  });
});

test('formatLength keeps one decimal at most', () => {
  expect(formatLength(221.66)).toBe('221.7');
  expect(formatLength(500)).toBe('500');
});

test('formatQuantity counts in words', () => {
  expect(formatQuantity(1, 'photo', 'photos')).toBe('1 photo');
  expect(formatQuantity(1234, 'photo', 'photos')).toBe('1,234 photos');
});

describe('locale', () => {
  afterEach(() => setLocale('en-GB'));

  test.each([
    [['en-US', 'en'], 'en-US'],
    [['sv-SE', 'en-AU', 'en-US'], 'en-AU'],
    [['sv-SE'], 'en-GB'],
    [[], 'en-GB'],
  ])('of %j is %s', (preferred, chosen) => expect(chooseLocale('en', preferred)).toBe(chosen));

  // expected forms: Unicode CLDR, en-US and de
  test('days follow the region at once', () => {
    expect(formatDay('2027-04-12')).toBe('12 April 2027');
    setLocale('en-US');
    expect(formatDay('2027-04-12')).toBe('April 12, 2027');
    expect(formatTime('2027-04-12T14:05:00')).toMatch(/^02:05\sPM$/);
  });

  test('numbers keep the decimal point that they are typed with', () => {
    setLocale('de');
    expect(formatDay('2027-04-12')).toBe('12. April 2027');
    expect(formatPercent(0.065)).toBe('6.5');
    // a comma would be read as the decimal mark, so a thin space parts the thousands (ISO 80000-1, 7.3.1)
    expect(formatCount(1234)).toBe('1\u202f234');
    expect(formatDecimals(-1.25, 2)).toBe('\u22121.25');
  });
});

test('formatBytes counts by thousands', () => {
  expect([1, 12_345, 24_000_000, 1_500_000_000].map(formatBytes)).toEqual([
    '1 byte',
    '12 kB',
    '24 MB',
    '1.5 GB',
  ]);
});
