import type { TransferListItem } from 'node:worker_threads';
import type { MeasureOutcome, MeasureTask } from './measureTask.ts';
import type { TeachOutcome, TeachTask } from './teachTask.ts';
import { threadPool } from './threadPool.ts';
import type { VerifyOutcome, VerifyTask } from './verifyTask.ts';

/** What a thread is given: the name of a task and what it needs. */
export type PhotoTask =
  | { readonly measure: MeasureTask }
  | { readonly teach: TeachTask }
  | { readonly verify: VerifyTask };
export type PhotoOutcome = MeasureOutcome | TeachOutcome | VerifyOutcome;

/** Threads that each work on one photo at a time; see ThreadPool. */
export interface PhotoThreads {
  measure(task: MeasureTask, transfer: readonly TransferListItem[]): Promise<MeasureOutcome>;
  teach(task: TeachTask, transfer: readonly TransferListItem[]): Promise<TeachOutcome>;
  verify(task: VerifyTask, transfer: readonly TransferListItem[]): Promise<VerifyOutcome>;
  close(): Promise<void>;
}

/** @param script the bundle of measureWorker.ts */
export function photoThreads(script: URL, size: number): PhotoThreads {
  const pool = threadPool<PhotoTask, PhotoOutcome>(script, size);
  return {
    // a thread answers each task with the outcome of its kind
    measure: (task, transfer) => pool.run({ measure: task }, transfer) as Promise<MeasureOutcome>,
    teach: (task, transfer) => pool.run({ teach: task }, transfer) as Promise<TeachOutcome>,
    verify: (task, transfer) => pool.run({ verify: task }, transfer) as Promise<VerifyOutcome>,
    close: () => pool.close(),
  };
}
