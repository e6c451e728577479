import { afterEach, expect, test } from 'vitest';
import { type ThreadPool, threadPool } from '../../src/cli/threadPool.ts';

/** A thread that answers a number with its double, throws on 'throw', dies on 'die', and never answers 'wait'. */
const SCRIPT = new URL(
  `data:text/javascript,${encodeURIComponent(`
    import { parentPort } from 'node:worker_threads';
    parentPort.on('message', (task) => {
      if (task === 'wait') return;
      if (task === 'die') process.exit(3);
      if (task === 'throw') throw new Error('out of paper');
      parentPort.postMessage(task === 'broken' ? { broken: 'no ink' } : { outcome: 2 * task });
    });
  `)}`,
);

let pool: ThreadPool<number | string, number>;
afterEach(() => pool.close());

test('tasks run on as many threads as there are, answers come to their tasks', async () => {
  pool = threadPool(SCRIPT, 2);
  expect(await Promise.all([pool.run(1, []), pool.run(2, [])])).toEqual([2, 4]);
  expect(await pool.run(3, [])).toBe(6);
});

test.each([
  ['throws', 'throw', 'out of paper'],
  ['dies', 'die', 'the thread ended'],
  ['says that it broke', 'broken', 'no ink'],
])('a thread that %s fails its task only, and work goes on', async (_, task, reason) => {
  pool = threadPool(SCRIPT, 1);
  await expect(pool.run(task, [])).rejects.toThrow(reason);
  expect(await pool.run(4, [])).toBe(8);
});

test('closing ends a task that never would', async () => {
  pool = threadPool(SCRIPT, 1);
  const waiting = pool.run('wait', []);
  const failed = expect(waiting).rejects.toThrow('the thread ended');
  await pool.close();
  await failed;
  await expect(pool.run(1, [])).rejects.toThrow('closed');
});

test('more tasks at once than threads are a mistake of the caller', async () => {
  pool = threadPool(SCRIPT, 1);
  const first = pool.run(1, []);
  await expect(pool.run(2, [])).rejects.toThrow(RangeError);
  await first;
});
