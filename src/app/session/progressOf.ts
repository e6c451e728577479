import type { Overview } from '../../storage/projectOverview.ts';
import type { Progress } from './session.ts';

/** Where the newest batch of jobs stands. */
export function progressOf({ jobs, paused }: Overview): Omit<Progress, 'trouble'> {
  let batch = '';
  for (const job of jobs.values()) if (job.batch > batch) batch = job.batch;
  const count = { total: 0, done: 0, failed: 0, running: 0 };
  for (const { batch: own, state } of jobs.values()) {
    if (own !== batch) continue;
    count.total += 1;
    if (state !== 'waiting') count[state] += 1;
  }
  return { ...count, paused };
}
