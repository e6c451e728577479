import { expect, test } from 'vitest';
import { typicalPlots } from '../../../src/core/report/typicalPlots.ts';
import type { PlotObservation } from '../../../src/core/statistics/plotObservation.ts';

const plot = (name: string, treatment: string, block: string | null, value: number): PlotObservation => ({
  plot: name,
  treatment,
  block,
  row: null,
  column: null,
  value,
});

test('the block whose plots together lie nearest their treatment means', () => {
  // by hand: means 20 and 10; distances of the blocks 10 + 2, 1 + 2, 9 + 4
  const observations = [
    plot('101', '1', '1', 30),
    plot('102', '2', '1', 12),
    plot('201', '1', '2', 19),
    plot('202', '2', '2', 12),
    plot('301', '1', '3', 11),
    plot('302', '2', '3', 6),
  ];
  const found = typicalPlots(observations, ['1', '2']);
  expect(found.block).toBe('2');
  expect(found.plots.map(({ plot: name }) => name)).toEqual(['201', '202']);
});

test('without a block that has all treatments, the plot nearest the mean of each', () => {
  const observations = [
    plot('101', '1', '1', 30),
    plot('201', '1', '2', 22),
    plot('301', '1', '3', 11),
    plot('102', '2', '4', 5),
  ];
  const found = typicalPlots(observations, ['2', '1', '3']);
  expect(found.block).toBeNull();
  expect(found.plots.map(({ plot: name }) => name)).toEqual(['102', '201']);
});

test('nothing rated: no plots', () => {
  expect(typicalPlots([], ['1'])).toEqual({ block: null, plots: [] });
});
