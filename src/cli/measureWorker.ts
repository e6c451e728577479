import { parentPort } from 'node:worker_threads';
import sharp from 'sharp';
import { type MeasureTask, measureTask } from './measureTask.ts';

// one photo a thread; threads, not libvips, share out the cores
sharp.concurrency(1);
sharp.cache(false);

parentPort!.on('message', async (task: MeasureTask) => {
  try {
    parentPort!.postMessage({ outcome: await measureTask(task) });
  } catch (error) {
    parentPort!.postMessage({ broken: error instanceof Error ? error.message : String(error) });
  }
});
