import { expect, test } from 'vitest';
import { NewestOnly } from '../../../src/app/session/newestOnly.ts';

/** A writer that writes when the test lets it. */
function slowWriter() {
  const written: [string, number][] = [];
  const finish: (() => void)[] = [];
  const newestOnly = new NewestOnly<string, number>(
    (key, value) =>
      new Promise((resolve) =>
        finish.push(() => {
          written.push([key, value]);
          resolve();
        }),
      ),
  );
  const finishNext = async () => {
    finish.shift()!();
    await new Promise((resolve) => setTimeout(resolve));
  };
  return { written, newestOnly, finishNext, pending: finish };
}

test('of values that come while one is written only the newest is written, and all are told', async () => {
  const { written, newestOnly, finishNext } = slowWriter();
  const told: number[] = [];
  for (const value of [1, 2, 3, 4]) newestOnly.write('a', value).then(() => told.push(value));
  await finishNext();
  expect(told).toEqual([1]);
  await finishNext();
  expect(written).toEqual([
    ['a', 1],
    ['a', 4],
  ]);
  expect(told).toEqual([1, 2, 3, 4]);
});

test('keys do not wait for each other', async () => {
  const { newestOnly, pending } = slowWriter();
  newestOnly.write('a', 1);
  newestOnly.write('b', 2);
  expect(pending).toHaveLength(2);
});

test('a write that fails is told, and the next is written', async () => {
  let calls = 0;
  const newestOnly = new NewestOnly<string, number>(async () => {
    calls += 1;
    if (calls === 1) throw new Error('no');
  });
  const first = newestOnly.write('a', 1);
  const second = newestOnly.write('a', 2);
  await expect(first).rejects.toThrow('no');
  await expect(second).resolves.toBeUndefined();
});
