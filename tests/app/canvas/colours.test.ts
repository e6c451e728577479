import { expect, test } from 'vitest';
import { contrastRatio, inkOn, parseColour } from '../../../src/app/canvas/colours.ts';
import { DEFAULT_CLASSES } from '../../../src/core/trial/defaultClasses.ts';

test('parseColour reads three channels and refuses anything else', () => {
  expect(parseColour('#d55e00')).toEqual([213, 94, 0]);
  for (const wrong of ['d55e00', '#d5e', 'vermilion']) expect(() => parseColour(wrong)).toThrow(RangeError);
});

test('contrast as WCAG 2.2 defines it', () => {
  expect(contrastRatio('#000000', '#ffffff')).toBeCloseTo(21);
  // WebAIM's contrast checker gives 4.54 for #767676 on white
  expect(contrastRatio('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
});

test('the letter of every class reads on its colour', () => {
  for (const { colour } of DEFAULT_CLASSES) {
    expect(contrastRatio(colour, inkOn(colour)), colour).toBeGreaterThanOrEqual(4.5);
  }
});
