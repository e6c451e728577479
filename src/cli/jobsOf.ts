import { availableParallelism } from 'node:os';
import { cli } from '../core/text/cli.ts';
import { UsageError } from './usageError.ts';

const MOST_JOBS = 64;

/** The number after `--jobs`. @throws UsageError if it is none that can be */
export function jobsOf(met: string | undefined): number {
  if (met === undefined) return Math.max(1, availableParallelism() - 1);
  const jobs = /^\d{1,3}$/.test(met) ? Number(met) : 0;
  if (jobs < 1 || jobs > MOST_JOBS) throw new UsageError(cli.measure.badJobs(met, MOST_JOBS));
  return jobs;
}
