import { expect, test } from 'vitest';
import { dayScale, valueScale } from '../../../src/app/charts/scales.ts';

test('values from 0 to 100 for percent, whatever the data', () => {
  const scale = valueScale([3, 12], { pixels: [100, 0], range: 'percent' });
  expect([scale.least, scale.most]).toEqual([0, 100]);
  expect(scale.at(25)).toBe(75);
});

test('a tight scale holds all values and 0', () => {
  const scale = valueScale([31, 44.7, null], { pixels: [300, 0] });
  expect(scale.least).toBe(0);
  expect(scale.most).toBeGreaterThanOrEqual(44.7);
  expect(scale.most).toBeLessThanOrEqual(50);
  expect(scale.ticks[0]).toEqual({ value: 0, words: '0' });
});

test('all zero, or nothing at all, runs from 0 to 1', () => {
  for (const values of [[0, 0], [], [null]]) {
    const scale = valueScale(values, { pixels: [0, 100] });
    expect([scale.least, scale.most, scale.at(0)]).toEqual([0, 1, 0]);
  }
});

test('values that differ by rounding alone, and one value alone, have an axis with room', () => {
  for (const value of [5e-324, 0.1 + 0.2, 40]) {
    const scale = valueScale([value, value * (1 + 1e-15)], { pixels: [0, 300], zero: false });
    expect(scale.least).toBeLessThan(value);
    expect(scale.most).toBeGreaterThan(value);
    expect(scale.ticks.length).toBeGreaterThan(2);
  }
});

test('negative values are shown, with a minus sign', () => {
  const scale = valueScale([-12, 9], { pixels: [200, 0] });
  expect(scale.least).toBeLessThanOrEqual(-12);
  expect(scale.ticks.map(({ words }) => words)).toContain('−10');
});

test('ticks have as many decimals as their step needs', () => {
  const scale = valueScale([0.3], { pixels: [0, 300] });
  expect(scale.ticks.slice(0, 3).map(({ words }) => words)).toEqual(['0.00', '0.05', '0.10']);
});

test('days are as far apart as the calendar says, over a change of clocks too', () => {
  const scale = dayScale(['2027-03-20', '2027-04-09', '2027-03-30'], [0, 200]);
  expect(scale.at('2027-03-30')).toBe(100);
  expect([scale.firstDay, scale.lastDay]).toEqual(['2027-03-20', '2027-04-09']);
});

test('one day stands in the middle; no day is an error', () => {
  expect(dayScale(['2027-04-09'], [0, 200]).at('2027-04-09')).toBe(100);
  expect(() => dayScale([], [0, 1])).toThrow(RangeError);
});
