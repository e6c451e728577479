import { proxy, transfer, wrap } from 'comlink';
import type { MeasureApi } from '../../../workers/measureApi.ts';
import type { MeasureWorker } from './measureWorker.ts';

/** Starts a worker of the browser's. */
export function startMeasureWorker(): MeasureWorker {
  const worker = new Worker(new URL('../../../workers/measure.worker.ts', import.meta.url), {
    type: 'module',
    name: 'measure',
  });
  const api = wrap<MeasureApi>(worker);
  return {
    measure: (job, onProgress, onChecked) =>
      api.measure(transfer(job, [job.bytes]), proxy(onProgress), proxy(onChecked)),
    cancel: (jobId) => void api.cancel(jobId),
    takeMask: (jobId) => api.takeMask(jobId),
    selfTest: () => api.selfTest(),
    terminate: () => worker.terminate(),
    onDeath(listener) {
      worker.addEventListener('error', (event) => listener(event.message ?? 'the worker did not start'));
      worker.addEventListener('messageerror', () => listener('a message could not be read'));
    },
  };
}
