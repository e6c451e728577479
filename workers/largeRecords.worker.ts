import { expose, transfer } from 'comlink';
import { largeBuffers } from '../src/storage/archive/largeBuffers.ts';
import { openIndexedDatabase } from '../src/storage/indexedDatabase.ts';
import { createProjectStore, type ProjectStore } from '../src/storage/projectStore.ts';
import type { LargeRecordsApi } from './largeRecordsApi.ts';

let store: ProjectStore | null = null;

function opened(): ProjectStore {
  if (!store) throw new Error('the database was not opened');
  return store;
}

const largeRecordsApi: LargeRecordsApi = {
  async open(name) {
    const ignore = () => {};
    const handlers = { onBlocked: ignore, onTakenOver: ignore, onClosed: ignore };
    const database = await openIndexedDatabase({ name, indexedDB, IDBKeyRange, ...handlers });
    store = createProjectStore({
      database,
      channel: null,
      now: () => new Date(),
      newId: () => crypto.randomUUID(),
    });
  },
  async read(photoId) {
    const records = await opened().archive.large(photoId);
    return transfer(records, largeBuffers(records));
  },
  stage: (photoId, records) => opened().archive.stage(photoId, records),
  close() {
    store?.close();
    store = null;
  },
};
expose(largeRecordsApi);
