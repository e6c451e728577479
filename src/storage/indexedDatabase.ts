import { Dexie, type Table, type Transaction } from 'dexie';
import type { Database, RawTables } from './database.ts';
import { exportDatabase } from './exportDatabase.ts';
import { NewerDatabase } from './newerDatabase.ts';
import { CURRENT_VERSION, SCHEMA_VERSIONS } from './schemaVersions.ts';
import { storedVersion, versionFromNative } from './storedVersion.ts';
import type { TableName } from './tables.ts';
import { UpgradeFailed } from './upgradeFailed.ts';

export interface IndexedDatabaseOptions {
  readonly name: string;
  readonly indexedDB: IDBFactory;
  readonly IDBKeyRange: typeof globalThis.IDBKeyRange;
  /** Another tab holds an older version open and does not let go; opening goes on when it is closed. */
  readonly onBlocked: () => void;
  /** A newer version of the program takes the database over: it was closed for this tab. */
  readonly onTakenOver: (newer: NewerDatabase) => void;
  /** The browser closed the database by itself: its disk is full or broken, or the data were cleared. */
  readonly onClosed: () => void;
}

/**
 * Opens the browser's database, bringing it to the present version where it is older.
 *
 * @throws NewerDatabase if it is newer
 * @throws UpgradeFailed if it is older and cannot be brought to the present version; it is then as it was
 * @throws Error as the browser gives it, if it cannot be opened
 */
export async function openIndexedDatabase(options: IndexedDatabaseOptions): Promise<Database> {
  const { name, indexedDB, IDBKeyRange } = options;
  // Dexie would open a newer database and patch its tables, so the version is looked at first
  const stored = await storedVersion(indexedDB, name);
  if (stored !== null && stored > CURRENT_VERSION) throw new NewerDatabase(name, stored, CURRENT_VERSION);

  // strict: a gesture that was reported as stored survives the loss of power
  const dexie = new Dexie(name, {
    indexedDB,
    IDBKeyRange,
    chromeTransactionDurability: 'strict',
    // else a database that the browser closed would come back in silence, perhaps an empty one
    autoOpen: false,
  });
  for (const { version, stores, upgrade } of SCHEMA_VERSIONS) {
    const declared = dexie.version(version).stores(stores);
    if (upgrade) declared.upgrade(upgrade);
  }
  // false keeps Dexie's own handlers from following: they would warn on the console and open the database again
  dexie.on('blocked', () => {
    options.onBlocked();
    return false;
  });
  dexie.on('versionchange', ({ newVersion }) => {
    dexie.close();
    // null when the database is being deleted
    if (newVersion !== null)
      options.onTakenOver(new NewerDatabase(name, versionFromNative(newVersion), CURRENT_VERSION));
    return false;
  });
  dexie.on('close', options.onClosed);
  try {
    await dexie.open();
  } catch (error) {
    const isOlder = stored !== null && stored < CURRENT_VERSION;
    throw isOlder ? new UpgradeFailed(stored, CURRENT_VERSION, error) : error;
  }
  return new IndexedDatabase(dexie, indexedDB);
}

class IndexedDatabase implements Database {
  readonly #dexie: Dexie;
  readonly #factory: IDBFactory;

  constructor(dexie: Dexie, factory: IDBFactory) {
    this.#dexie = dexie;
    this.#factory = factory;
  }

  async transact<T>(
    mode: 'read' | 'write',
    names: readonly TableName[],
    work: (tables: RawTables) => Promise<T>,
  ): Promise<T> {
    return this.#dexie.transaction(mode === 'read' ? 'r' : 'rw', [...names], (transaction) =>
      work(tablesOf(transaction, names)),
    );
  }

  exportRaw(): Promise<Blob> {
    return exportDatabase(this.#factory, this.#dexie.name);
  }

  close(): void {
    this.#dexie.close();
  }
}

function tablesOf(transaction: Transaction, names: readonly TableName[]): RawTables {
  const entries = names.map((name) => {
    const table: Table<unknown, unknown> = transaction.table(name);
    return [
      name,
      {
        get: (key: unknown) => table.get(key),
        getMany: (keys: unknown[]) => table.bulkGet(keys),
        all: () => table.toArray(),
        where: (index: string, value: string | number) => table.where(index).equals(value).toArray(),
        first: (index: string, value: string | number) => table.where(index).equals(value).first(),
        put: (record: unknown) => table.put(record),
        delete: (key: unknown) => table.delete(key),
      },
    ];
  });
  return Object.fromEntries(entries);
}
