import { type TransferListItem, Worker } from 'node:worker_threads';

/** Threads that each do one task at a time. */
export interface ThreadPool<Task, Outcome> {
  /**
   * Does a task on a free thread; call it for at most as many tasks at once as there are threads.
   *
   * @param transfer buffers that change hands: the caller no longer owns them
   * @throws Error if the thread threw or died; a dead one is replaced
   */
  run(task: Task, transfer: readonly TransferListItem[]): Promise<Outcome>;
  /** Ends all threads at once, whatever they do. */
  close(): Promise<void>;
}

/** What a thread of a pool answers to each task. */
type Answer<Outcome> = { readonly outcome: Outcome } | { readonly broken: string };

/** A pool whose threads start when they are first needed. @param script a bundled module for a worker thread */
export function threadPool<Task, Outcome>(script: URL, size: number): ThreadPool<Task, Outcome> {
  const idle: Worker[] = [];
  const all = new Set<Worker>();
  let closed = false;

  const start = (): Worker => {
    const worker = new Worker(script);
    all.add(worker);
    // one that dies while idle is forgotten; one that dies at work rejects its task as well
    worker.on('error', () => forget(worker)).on('exit', () => forget(worker));
    return worker;
  };
  const forget = (worker: Worker): void => {
    all.delete(worker);
    const at = idle.indexOf(worker);
    if (at >= 0) idle.splice(at, 1);
  };

  return {
    run(task, transfer) {
      if (closed) return Promise.reject(new Error('the pool is closed'));
      if (idle.length === 0 && all.size >= size) {
        return Promise.reject(new RangeError(`more than ${size} tasks at once`));
      }
      const worker = idle.pop() ?? start();
      return new Promise((resolve, reject) => {
        const stopListening = () => {
          worker.off('message', onMessage).off('error', onDeath).off('exit', onExit);
        };
        const onMessage = (answer: Answer<Outcome>) => {
          stopListening();
          idle.push(worker);
          if ('outcome' in answer) resolve(answer.outcome);
          else reject(new Error(answer.broken));
        };
        const onDeath = (error: Error) => {
          stopListening();
          forget(worker);
          reject(error);
        };
        const onExit = () => onDeath(new Error('the thread ended'));
        worker.on('message', onMessage).on('error', onDeath).on('exit', onExit);
        worker.postMessage(task, transfer);
      });
    },
    async close() {
      closed = true;
      await Promise.all([...all].map((worker) => worker.terminate()));
    },
  };
}
