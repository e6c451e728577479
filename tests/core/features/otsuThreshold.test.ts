import { expect, it } from 'vitest';
import { otsuThreshold } from '../../../src/core/features/otsuThreshold.ts';
import { referenceValues } from '../../support/referenceValues.ts';

it('parts the teaching histogram where the between-class variance is largest', () => {
  const { histogram, best_threshold_background_below: best } = referenceValues<{
    histogram: number[];
    best_threshold_background_below: number;
  }>('otsu.json');
  expect(otsuThreshold(histogram)).toBe(best);
});

it('has nothing to part where one level or none is filled', () => {
  expect(otsuThreshold([0, 0, 7, 0])).toBeNull();
  expect(otsuThreshold([0, 0, 0])).toBeNull();
});
