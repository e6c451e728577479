/** Dexie numbers the versions of IndexedDB in steps of ten. */
const STEPS = 10;

/** Opens a database in whatever version it has; null where there is none, and then none is left behind. */
export function openAsStored(factory: IDBFactory, name: string): Promise<IDBDatabase | null> {
  return new Promise((resolve, reject) => {
    const request = factory.open(name);
    let isNew = false;
    request.onupgradeneeded = () => {
      isNew = true;
      request.transaction!.abort();
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => (isNew ? resolve(null) : reject(request.error));
  });
}

export const versionFromNative = (native: number): number => native / STEPS;

export const versionOf = (database: IDBDatabase): number => versionFromNative(database.version);

/** Version of the stored database; null where there is none. */
export async function storedVersion(factory: IDBFactory, name: string): Promise<number | null> {
  const database = await openAsStored(factory, name);
  database?.close();
  return database && versionOf(database);
}
