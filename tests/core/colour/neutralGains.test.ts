import { expect, test } from 'vitest';
import { LARGEST_GAIN, neutralGains } from '../../../src/core/colour/neutralGains.ts';
import { linearFromSrgb } from '../../../src/core/colour/srgb.ts';

const filled = (red: number, green: number, blue: number) => ({
  widthPx: 10,
  heightPx: 10,
  data: new Uint8ClampedArray(400).map((_, i) => [red, green, blue, 255][i % 4]!),
});

test('a grey reference changes nothing', () => {
  expect(neutralGains(filled(120, 120, 120), [2, 2, 5, 5])).toEqual([1, 1, 1]);
});

test('a bluish reference: gains make it grey in linear light', () => {
  const [red, green, blue] = neutralGains(filled(110, 120, 140), [2, 2, 5, 5])!;
  expect(red * linearFromSrgb(110 / 255)).toBeCloseTo(linearFromSrgb(120 / 255), 4);
  expect(blue * linearFromSrgb(140 / 255)).toBeCloseTo(linearFromSrgb(120 / 255), 4);
  expect(green).toBe(1);
});

test('gains are capped', () => {
  expect(neutralGains(filled(40, 200, 200), [0, 0, 10, 10])![0]).toBe(LARGEST_GAIN);
});

test.each<[string, number, readonly [number, number, number, number]]>([
  ['a clipped reference', 255, [0, 0, 10, 10]],
  ['a reference outside the photo', 120, [20, 20, 5, 5]],
  ['a rectangle without pixels', 120, [2, 2, 0, 0]],
])('%s gives no gain', (_, value, neutral) => {
  expect(neutralGains(filled(value, value, value), neutral)).toBeNull();
});
