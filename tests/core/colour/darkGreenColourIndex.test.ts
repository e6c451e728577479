import { describe, expect, test } from 'vitest';
import { darkGreenColourIndex, indexOfHsb } from '../../../src/core/colour/darkGreenColourIndex.ts';
import { turfColour } from '../../../src/core/cover/turfColour.ts';
import { DEFAULT_CLASSES } from '../../../src/core/trial/defaultClasses.ts';
import expected from '../../reference-values/dgci.json' with { type: 'json' };

test('the formula of Karcher and Richardson 2003', () => {
  for (const { h_degrees, s, b, dgci } of expected.rows) {
    expect(indexOfHsb(h_degrees, s, b)).toBeCloseTo(dgci, 12);
  }
});

test('of a colour: pure green has hue 120, saturation and brightness 1; a grey has no hue', () => {
  // row h 120, s 1, b 1 of the reference values
  expect(darkGreenColourIndex([0, 1, 0])).toBeCloseTo(1 / 3, 12);
  expect(darkGreenColourIndex([0.4, 0.4, 0.4])).toBeNull();
});

describe('colour of the turf in a photo', () => {
  // two pixels of turf, one of weeds, one not measured
  const raster = {
    widthPx: 4,
    heightPx: 1,
    data: new Uint8ClampedArray([20, 100, 40, 255, 60, 140, 40, 255, 250, 250, 0, 255, 1, 2, 3, 255]),
  };
  const mask = { widthPx: 4, heightPx: 1, labels: new Uint8Array([1, 1, 2, 0]) };

  test('is that of the mean of its pixels and of no others', () => {
    const found = turfColour(raster, mask, DEFAULT_CLASSES, null);
    expect(found).toMatchObject({ classId: 'ryegrass', pixels: 2, balancedIndex: null });
    // mean 40, 120, 40: hue 120, saturation (120 - 40) / 120 = 2/3, brightness 120/255; by hand
    expect(found!.darkGreenColourIndex).toBeCloseTo((1 + 1 / 3 + (1 - 120 / 255)) / 3, 12);
  });

  test('follows the grey card beside the colour as photographed: more blue raises the hue', () => {
    const plain = turfColour(raster, mask, DEFAULT_CLASSES, null)!.darkGreenColourIndex!;
    const same = turfColour(raster, mask, DEFAULT_CLASSES, [1, 1, 1])!;
    expect(same.balancedIndex).toBeCloseTo(plain, 12);
    const bluer = turfColour(raster, mask, DEFAULT_CLASSES, [1, 1, 1.5])!;
    expect(bluer.darkGreenColourIndex).toBe(plain);
    expect(bluer.balancedIndex).toBeGreaterThan(plain);
  });

  test('is not there without turf', () => {
    const bare = { ...mask, labels: new Uint8Array([3, 3, 3, 0]) };
    expect(turfColour(raster, bare, DEFAULT_CLASSES, null)).toBeNull();
    expect(turfColour(raster, mask, DEFAULT_CLASSES.slice(1), null)).toBeNull();
  });
});
