import type { Transaction } from 'dexie';
import { figureFromVersion1, jobFromVersion1, photoFromVersion1 } from './migrations/fromVersion1.ts';
import { TABLE_NAMES, TABLES } from './tables.ts';

/** One version of the database: its tables with key and indexes in Dexie's notation, and the way there. */
interface SchemaVersion {
  readonly version: number;
  readonly stores: Readonly<Record<string, string>>;
  /** Brings the records of the version before over, inside the transaction that upgrades the tables. */
  readonly upgrade?: (transaction: Transaction) => Promise<void>;
}

const keyPath = (fields: readonly string[]) => (fields.length === 1 ? fields[0]! : `[${fields.join('+')}]`);

const presentStores = Object.fromEntries(
  TABLE_NAMES.map((name) => [name, [keyPath(TABLES[name].key), ...TABLES[name].indexes].join(', ')]),
);

/** Every version there ever was. Old ones stay as they are: tests/storage/fixtures holds a sample of each. */
export const SCHEMA_VERSIONS: readonly SchemaVersion[] = [
  {
    version: 1,
    stores: {
      photos: 'id, sha256',
      photoBytes: 'photoId',
      thumbnails: 'photoId',
      figures: 'id, photoId',
      jobs: 'photoId',
      settings: 'name',
    },
  },
  {
    version: 2,
    stores: presentStores,
    async upgrade(transaction) {
      const photos = transaction.table('photos');
      for (const stored of await photos.toArray()) {
        const { photo, settings } = photoFromVersion1(stored);
        if (settings) await transaction.table('photoSettings').put(settings);
        await photos.put(photo);
      }
      for (const [name, migrated] of [
        ['figures', figureFromVersion1],
        ['jobs', jobFromVersion1],
      ] as const) {
        const table = transaction.table(name);
        for (const stored of await table.toArray()) await table.put(migrated(stored));
      }
    },
  },
];

export const CURRENT_VERSION = SCHEMA_VERSIONS.at(-1)!.version;
