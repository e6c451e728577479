import { rawExport } from './rawExport.ts';
import { openAsStored, versionOf } from './storedVersion.ts';

/** There is no database to export, e.g. because the browser cleared it. */
export class NothingStored extends Error {
  override readonly name = 'NothingStored';
}

/**
 * Every record of a stored database as one JSON file, whatever its version: also of one that this program is too old
 * to open, or whose records it cannot read. Changes nothing.
 *
 * @throws NothingStored if there is no such database
 * @throws Error if the browser cannot open it
 */
export async function exportDatabase(factory: IDBFactory, name: string): Promise<Blob> {
  const database = await openAsStored(factory, name);
  if (!database) throw new NothingStored(`there is no database ${name} to export`);
  try {
    const names = [...database.objectStoreNames];
    return await rawExport(
      name,
      versionOf(database),
      names.map((table) => [table, table]),
      async (table, write) => {
        // record by record, for photos of a season do not fit into memory
        const store = () => database.transaction(table, 'readonly').objectStore(table);
        for (const key of await settled(store().getAllKeys())) await write(await settled(store().get(key)));
      },
    );
  } finally {
    database.close();
  }
}

const settled = <T>(request: IDBRequest<T>): Promise<T> =>
  new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error);
  });
