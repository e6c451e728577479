import { expect, test } from 'vitest';
import { parseNumber } from '../../../src/app/components/parseNumber.ts';

const limits = { least: 0, most: 1000, optional: false };

test.each([
  ['221.7', 221.7],
  ['221,7', 221.7],
  [' 5 ', 5],
  ['.5', 0.5],
  ['+3', 3],
  ['1000', 1000],
])('"%s" is %d', (typed, value) => expect(parseNumber(typed, limits)).toEqual({ ok: true, value }));

test.each(['', 'wide', '1.2.3', '1e3', '12 mm', 'Infinity', '-'])('"%s" is no number', (typed) => {
  expect(parseNumber(typed, limits)).toEqual({ ok: false, code: 'not-a-number' });
});

test('a number beyond the limits is refused, not bent', () => {
  for (const typed of ['-1', '1000.1'])
    expect(parseNumber(typed, limits)).toEqual({ ok: false, code: 'out-of-range' });
});

test('nothing typed is an answer only where the field may be empty', () => {
  expect(parseNumber('', { ...limits, optional: true })).toEqual({ ok: true, value: null });
});
