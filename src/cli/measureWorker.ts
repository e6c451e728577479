import { parentPort } from 'node:worker_threads';
import sharp from 'sharp';
import { measureTask } from './measureTask.ts';
import type { PhotoTask } from './photoThreads.ts';
import { teachTask } from './teachTask.ts';

// one photo a thread; threads, not libvips, share out the cores
sharp.concurrency(1);
sharp.cache(false);

parentPort!.on('message', async (task: PhotoTask) => {
  try {
    parentPort!.postMessage({
      outcome: 'teach' in task ? await teachTask(task.teach) : await measureTask(task.measure),
    });
  } catch (error) {
    parentPort!.postMessage({ broken: error instanceof Error ? error.message : String(error) });
  }
});
