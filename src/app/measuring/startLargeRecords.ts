import { transfer, wrap } from 'comlink';
import type { LargeRecordsApi } from '../../../workers/largeRecordsApi.ts';
import { largeBuffers } from '../../storage/archive/largeBuffers.ts';
import type { LargeRecords } from '../../storage/archiveStore.ts';
import type { OpenLargeRecords } from '../session/archive/largeRecordStore.ts';

/** A worker is ended when so much went through it: the copies it left behind are given back with it. */
const BYTES_A_WORKER = 12 * 2 ** 20;

/**
 * Reads and keeps large records in workers of a short life. Whatever comes from the database or goes there leaves copies
 * that no script can reach and that the collector does not count; only the end of a worker is sure to free them.
 *
 * @param project name of the database, which is open already
 */
export function startLargeRecords(project: string): OpenLargeRecords {
  let running: { readonly worker: Worker; readonly api: ReturnType<typeof wrap<LargeRecordsApi>> } | null =
    null;
  let bytes = 0;

  const start = async () => {
    const worker = new Worker(new URL('../../../workers/largeRecords.worker.ts', import.meta.url), {
      type: 'module',
      name: 'large records',
    });
    const api = wrap<LargeRecordsApi>(worker);
    running = { worker, api };
    bytes = 0;
    await Promise.race([
      api.open(project),
      new Promise((_, reject) => {
        worker.onerror = ({ message }) => reject(new Error(`the worker did not start: ${message}`));
      }),
    ]);
    return api;
  };
  const end = async () => {
    if (!running) return;
    const { worker, api } = running;
    running = null;
    await api.close();
    worker.terminate();
  };
  const after = async (records: number) => {
    bytes += records;
    if (bytes >= BYTES_A_WORKER) await end();
  };
  return {
    async large(photoId) {
      const records = await (running?.api ?? (await start())).read(photoId);
      await after(byteCount(records));
      return records;
    },
    async stage(photoId, records) {
      const count = byteCount(records);
      const written = await (running?.api ?? (await start())).stage(
        photoId,
        transfer(records, largeBuffers(records)),
      );
      await after(count);
      return written;
    },
    end,
  };
}

const byteCount = (records: LargeRecords): number =>
  largeBuffers(records).reduce((sum, { byteLength }) => sum + byteLength, 0);
