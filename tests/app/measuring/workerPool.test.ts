import { expect, test } from 'vitest';
import {
  type RunOutcome,
  WorkerPool,
  type WorkerPoolOptions,
} from '../../../src/app/measuring/workerPool.ts';
import type { MeasureJob } from '../../../workers/measureApi.ts';
import { until } from '../../storage/support.ts';
import { doneOutcome, fakeWorkers, handClock, SETTINGS } from './fakeWorkers.ts';

const job = (jobId: string): MeasureJob => ({
  jobId,
  bytes: new ArrayBuffer(8),
  settings: SETTINGS,
  find: { frame: true, greyCard: true, frameSizeMm: null },
  photoSha256: 'a',
  taught: null,
  thumbnailPx: 0,
  wantMask: false,
});

function poolOf(size: number, options: Partial<WorkerPoolOptions> = {}) {
  const fakes = fakeWorkers();
  const clock = handClock();
  const pool = new WorkerPool({ startWorker: fakes.startWorker, size, every: clock.every, ...options });
  const run = (jobId: string, signal = new AbortController().signal) => pool.run(job(jobId), signal);
  /** Runs a job to its end on the first worker. */
  const runThrough = async (jobId: string) => {
    const { outcome, mask } = run(jobId);
    await until(() => fakes.workers.at(-1)!.isMeasuring, 'the worker measuring');
    fakes.workers.at(-1)!.answer();
    await mask;
    return outcome;
  };
  return { ...fakes, clock, pool, run, runThrough };
}

const stateOf = async (outcome: Promise<RunOutcome>) => (await outcome).state;

test('a photo is measured and its mask is taken; the worker is used again', async () => {
  const { workers, pool, run, runThrough } = poolOf(1);
  const { outcome, mask } = run('a');
  expect(pool.free).toBe(0);
  await until(() => workers[0]!.isMeasuring);
  workers[0]!.answer();
  expect(await outcome).toEqual(doneOutcome());
  expect(await mask).toBe(workers[0]!.mask);
  expect(pool.free).toBe(1);
  await runThrough('b');
  expect(workers).toHaveLength(1);
});

test('as many photos at a time as there are workers, one photo a worker', async () => {
  const { workers, pool, run } = poolOf(2);
  run('a');
  run('b');
  expect(pool.free).toBe(0);
  expect(() => run('c')).toThrow('all 2 workers are busy');
  await until(() => workers.length === 2 && workers.every(({ isMeasuring }) => isMeasuring));
  expect(workers.map(({ jobs }) => jobs.map(({ jobId }) => jobId))).toEqual([['a'], ['b']]);
});

test('a worker is replaced after so many photos', async () => {
  const { workers, runThrough } = poolOf(1, { photosPerWorker: 3 });
  for (const id of ['a', 'b', 'c', 'd']) await runThrough(id);
  expect(workers.map(({ jobs }) => jobs.length)).toEqual([3, 1]);
  expect(workers.map(({ terminated }) => terminated)).toEqual([true, false]);
});

test('a worker that dies takes its photo with it, and the next photo gets another', async () => {
  const { workers, run, runThrough } = poolOf(1);
  const { outcome, mask } = run('a');
  await until(() => workers[0]!.isMeasuring);
  workers[0]!.die('out of memory');
  expect(await outcome).toEqual({ state: 'died', detail: 'out of memory' });
  expect(await mask).toBeNull();
  expect(workers[0]!.terminated).toBe(true);
  expect(await stateOf(runThrough('b'))).toBe('done');
  expect(workers).toHaveLength(2);
});

test('a worker that dies while its mask is taken leaves the figure, and no mask', async () => {
  const { workers, pool, run } = poolOf(1);
  const { outcome, mask } = run('a');
  await until(() => workers[0]!.isMeasuring);
  workers[0]!.takeMask = () => new Promise(() => {});
  workers[0]!.answer();
  expect(await stateOf(outcome)).toBe('done');
  workers[0]!.die();
  expect(await mask).toBeNull();
  expect(pool.free).toBe(1);
});

test('what was not foreseen is told by name and message, and the worker is not trusted again', async () => {
  const { workers, pool, run, runThrough } = poolOf(1);
  const { outcome, mask } = run('a');
  await until(() => workers[0]!.isMeasuring);
  workers[0]!.throw(new RangeError('Array buffer allocation failed'));
  expect(await outcome).toEqual({
    state: 'unexpected',
    name: 'RangeError',
    message: 'Array buffer allocation failed',
  });
  await mask;
  expect(pool.free).toBe(1);
  await runThrough('b');
  expect(workers).toHaveLength(2);
});

test('without a sign of life for too long a worker counts as dead; progress is a sign of life', async () => {
  // silence of 60 s is 12 ticks of 5 s
  const { workers, clock, run } = poolOf(1, { silenceS: 60 });
  const { outcome } = run('a');
  await until(() => workers[0]!.isMeasuring);
  clock.tick(12);
  workers[0]!.progress(0.5);
  clock.tick(12);
  expect(workers[0]!.terminated).toBe(false);
  clock.tick(1);
  expect(await outcome).toEqual({ state: 'died', detail: 'no sign of life' });
  expect(workers[0]!.terminated).toBe(true);
});

test('an idle worker need not show signs of life', async () => {
  const { workers, clock, runThrough } = poolOf(1);
  await runThrough('a');
  clock.tick(100);
  expect(workers[0]!.terminated).toBe(false);
});

test('aborting answers at once, tells the worker, and drops what it still answers', async () => {
  const { workers, pool, run, runThrough } = poolOf(1);
  const abort = new AbortController();
  const { outcome, mask } = run('a', abort.signal);
  await until(() => workers[0]!.isMeasuring);
  abort.abort();
  expect(await outcome).toEqual({ state: 'cancelled' });
  expect(workers[0]!.cancelled).toEqual(['a']);
  expect(pool.free).toBe(0);
  workers[0]!.answer({ state: 'cancelled' });
  expect(await mask).toBeNull();
  expect(pool.free).toBe(1);
  expect(await stateOf(runThrough('b'))).toBe('done');
});

test('a job aborted before its worker is ready is not started', async () => {
  const { workers, run, pool } = poolOf(1);
  const abort = new AbortController();
  const { outcome, mask } = run('a', abort.signal);
  abort.abort();
  expect(await outcome).toEqual({ state: 'cancelled' });
  await mask;
  expect(workers[0]!.jobs).toEqual([]);
  expect(pool.free).toBe(1);
});

test('a cancelled worker that never answers is replaced by the watchdog', async () => {
  const { workers, clock, pool, run } = poolOf(1);
  const abort = new AbortController();
  const { mask } = run('a', abort.signal);
  await until(() => workers[0]!.isMeasuring);
  abort.abort();
  clock.tick(13);
  expect(await mask).toBeNull();
  expect(workers[0]!.terminated).toBe(true);
  expect(pool.free).toBe(1);
});

test('workers that cannot be started are told apart from photos that kill workers', async () => {
  const { startWorker } = fakeWorkers({ starts: false });
  const pool = new WorkerPool({ startWorker, size: 1, every: handClock().every });
  const { outcome } = pool.run(job('a'), new AbortController().signal);
  expect(await outcome).toEqual({ state: 'not-started', detail: 'the script could not be loaded' });
  expect(pool.free).toBe(1);
  expect(await pool.decoder()).toBeNull();
});

test('how the browser decodes is asked of one worker and remembered', async () => {
  const { workers, pool } = poolOf(2);
  expect(await pool.decoder()).toEqual({ state: 'same' });
  expect(await pool.decoder()).toEqual({ state: 'same' });
  expect(workers).toHaveLength(1);
});

test('stopping ends every worker', async () => {
  const { workers, pool, run } = poolOf(2);
  const { outcome } = run('a');
  run('b');
  await until(() => workers.every(({ isMeasuring }) => isMeasuring));
  pool.stop();
  expect(await stateOf(outcome)).toBe('died');
  expect(workers.map(({ terminated }) => terminated)).toEqual([true, true]);
});

test.each([0, -1, Number.NaN])('a pool of %s workers is refused', (size) => {
  expect(() => poolOf(size)).toThrow(`size must be 1 or more, got ${size}`);
});
