import type { JobRecord } from '../../storage/records/photoRecords.ts';

/**
 * Which photo to measure next: the one on screen, else the one that waits longest.
 *
 * A photo over which a worker or the page has died is taken last and alone: should it happen again, no other photo
 * that ran at the same time comes under suspicion.
 *
 * @param jobs in any order
 * @param running photo ids being measured by this tab
 * @param excluded photo ids not to be tried just now
 * @returns a photo id, or null where nothing can be started now
 */
export function chooseNextJob(
  jobs: Iterable<JobRecord>,
  running: ReadonlySet<string>,
  excluded: ReadonlySet<string>,
  openPhotoId: string | null,
): string | null {
  let best: JobRecord | null = null;
  for (const job of jobs) {
    if (running.has(job.photoId)) {
      if (job.deaths > 0) return null;
      continue;
    }
    if (job.state !== 'waiting' || excluded.has(job.photoId)) continue;
    if (best === null || comesFirst(job, best, openPhotoId)) best = job;
  }
  if (best === null || (best.deaths > 0 && running.size > 0)) return null;
  return best.photoId;
}

function comesFirst(a: JobRecord, b: JobRecord, openPhotoId: string | null): boolean {
  if (a.deaths > 0 !== b.deaths > 0) return a.deaths === 0;
  if ((a.photoId === openPhotoId) !== (b.photoId === openPhotoId)) return a.photoId === openPhotoId;
  return a.requestedAt < b.requestedAt;
}
