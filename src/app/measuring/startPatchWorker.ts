import { transfer, wrap } from 'comlink';
import type { PatchesApi, PatchesRequest } from '../../../workers/patchesApi.ts';
import type { PatchCover } from '../../core/frame/patchCover.ts';

/** A worker that sums masks by patches. See PatchesApi. */
export interface PatchWorker {
  patchCover(request: PatchesRequest): Promise<PatchCover>;
  terminate(): void;
}

/** Starts a worker of the browser's. */
export function startPatchWorker(): PatchWorker {
  const worker = new Worker(new URL('../../../workers/patches.worker.ts', import.meta.url), {
    type: 'module',
    name: 'patches',
  });
  const api = wrap<PatchesApi>(worker);
  return {
    patchCover: (request) => api.patchCover(transfer(request, [request.mask.labels.buffer as ArrayBuffer])),
    terminate: () => worker.terminate(),
  };
}
