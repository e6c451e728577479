import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import sharp from 'sharp';
import { expect, test } from 'vitest';
import { betweenObservers, trainingResult } from '../../../src/core/point-grid/observerTraining.ts';

const picture = (called: readonly (number | null)[], rated: readonly number[], name = 'p') => ({
  picture: name,
  rated,
  called,
  truth: [0, 0, 1, 1],
  trueCover: [0.6, 0.4],
});

test('calls and ratings against the truth, by hand', () => {
  const { calls, ratings } = trainingResult(
    [picture([0, 0, 1, 0], [0.7, 0.3]), picture([0, null, 1, 1], [0.6, 0.4], 'q')],
    2,
  );
  expect(calls.table).toEqual([
    [3, 1],
    [0, 3],
  ]);
  expect([calls.points, calls.indeterminate]).toEqual([7, 1]);
  // shares called 75 and 33.3 against 50 and 33.3 of the points judged
  expect(calls.classes[0]!.bias).toBeCloseTo(12.5, 10);
  expect(ratings.map(({ bias }) => bias)).toEqual([expect.closeTo(5, 10), expect.closeTo(-5, 10)]);
});

test('two observers are held against each other on pictures that both saw', () => {
  const first = [picture([0, 0, 1, 1], [1, 0]), picture([0, 0, 0, 0], [1, 0], 'only first')];
  const agreement = betweenObservers(first, [picture([0, 1, 1, 1], [1, 0])], 2);
  expect(agreement.table).toEqual([
    [1, 1],
    [0, 2],
  ]);
});

test('the training pictures: their labels are those of the sample photos, every pixel measured', async () => {
  const folder = fileURLToPath(new URL('../../../sample-images/', import.meta.url));
  const { pictures } = JSON.parse(readFileSync(`${folder}training/training.json`, 'utf8')) as {
    pictures: { truth: string; box: [number, number, number, number]; pixels: Record<string, number> }[];
  };
  expect(pictures).toHaveLength(6);
  for (const { truth, box, pixels } of pictures) {
    const [left, top, width, height] = box;
    const raw = (path: string) => sharp(folder + path).toColourspace('b-w');
    const crop = await raw(`training/${truth}`).raw().toBuffer();
    const whole = await raw(`truth/${truth}`).extract({ left, top, width, height }).raw().toBuffer();
    expect(crop.equals(whole)).toBe(true);
    const counted = [1, 2, 3].map((label) => crop.filter((one) => one === label).length);
    expect(counted).toEqual(Object.values(pixels));
    expect(counted.reduce((sum, count) => sum + count, 0)).toBe(width * height);
  }
});
