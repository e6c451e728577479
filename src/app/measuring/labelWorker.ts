import { transfer, wrap } from 'comlink';
import type { LabelApi, LabelOutcome } from '../../../workers/labelApi.ts';

/** The worker that reads plot labels as the session handles it: the real one and those of the tests. See LabelApi. */
export interface LabelWorker {
  read(bytes: ArrayBuffer): Promise<LabelOutcome>;
  /** Ends it at once; promises given out stay open. */
  terminate(): void;
  /** Called when it failed outside any call. */
  onDeath(listener: (detail: string) => void): void;
}

/** Starts a worker of the browser's. */
export function startLabelWorker(): LabelWorker {
  const worker = new Worker(new URL('../../../workers/label.worker.ts', import.meta.url), {
    type: 'module',
    name: 'label',
  });
  const api = wrap<LabelApi>(worker);
  return {
    read: (bytes) => api.read(transfer(bytes, [bytes])),
    terminate: () => worker.terminate(),
    onDeath(listener) {
      worker.addEventListener('error', (event) => listener(event.message ?? 'the worker did not start'));
      worker.addEventListener('messageerror', () => listener('a message could not be read'));
    },
  };
}
