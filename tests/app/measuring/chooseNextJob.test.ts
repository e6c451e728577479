import { expect, test } from 'vitest';
import { chooseNextJob } from '../../../src/app/measuring/chooseNextJob.ts';
import type { JobRecord } from '../../../src/storage/records/photoRecords.ts';

const job = (photoId: string, second: number, facts: Partial<JobRecord> = {}): JobRecord => ({
  photoId,
  state: 'waiting',
  batch: '2027-05-17T08:00:00.000Z',
  requestedAt: `2027-05-17T08:00:0${second}.000Z`,
  deaths: 0,
  claim: null,
  problem: null,
  ...facts,
});
const none = new Set<string>();

test('the one that waits longest comes first, whatever the order of the list', () => {
  expect(chooseNextJob([job('b', 2), job('a', 1), job('c', 3)], none, none, null)).toBe('a');
});

test('the photo on screen goes before all others', () => {
  expect(chooseNextJob([job('a', 1), job('b', 2)], none, none, 'b')).toBe('b');
});

test('what is done, failed, running elsewhere or excluded is passed over', () => {
  const jobs = [
    job('a', 1, { state: 'done' }),
    job('b', 2, { state: 'failed' }),
    job('c', 3, { state: 'running' }),
    job('d', 4),
    job('e', 5),
  ];
  expect(chooseNextJob(jobs, none, new Set(['d']), null)).toBe('e');
  expect(chooseNextJob(jobs, none, new Set(['d', 'e']), null)).toBeNull();
});

test('a photo over which a worker died comes last, even when it is on screen', () => {
  expect(chooseNextJob([job('a', 1, { deaths: 1 }), job('b', 2)], none, none, 'a')).toBe('b');
});

test('a photo over which a worker died runs alone', () => {
  const suspect = job('a', 1, { deaths: 1 });
  expect(chooseNextJob([suspect], none, none, null)).toBe('a');
  expect(chooseNextJob([suspect, job('b', 2, { state: 'running' })], new Set(['b']), none, null)).toBeNull();
  const running = { ...suspect, state: 'running' } as const;
  expect(chooseNextJob([running, job('b', 2)], new Set(['a']), none, null)).toBeNull();
});
