import { parentPort } from 'node:worker_threads';
import sharp from 'sharp';
import { measureTask } from './measureTask.ts';
import type { PhotoTask } from './photoThreads.ts';
import { teachTask } from './teachTask.ts';
import { verifyTask } from './verifyTask.ts';

// one photo a thread; threads, not libvips, share out the cores
sharp.concurrency(1);
sharp.cache(false);

parentPort!.on('message', async (task: PhotoTask) => {
  try {
    parentPort!.postMessage({ outcome: await outcomeOf(task) });
  } catch (error) {
    parentPort!.postMessage({ broken: error instanceof Error ? error.message : String(error) });
  }
});

function outcomeOf(task: PhotoTask) {
  if ('teach' in task) return teachTask(task.teach);
  return 'verify' in task ? verifyTask(task.verify) : measureTask(task.measure);
}
