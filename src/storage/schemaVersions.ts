import type { Transaction } from 'dexie';
import { figureFromVersion1, jobFromVersion1, photoFromVersion1 } from './migrations/fromVersion1.ts';
import { photoFromVersion2 } from './migrations/fromVersion2.ts';
import { TABLE_NAMES, TABLES } from './tables.ts';

/** One version of the database: its tables with key and indexes in Dexie's notation, and the way there. */
interface SchemaVersion {
  readonly version: number;
  /** Null takes a table away. */
  readonly stores: Readonly<Record<string, string | null>>;
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
    stores: {
      trials: 'id',
      treatments: 'id, trialId',
      applications: 'id, trialId',
      plots: 'id, trialId',
      ratingDates: 'id, trialId',
      photos: 'id, sha256, trialId',
      photoBytes: 'photoId',
      thumbnails: 'photoId',
      photoSettings: 'photoId',
      automaticMasks: 'photoId',
      corrections: 'photoId',
      correctionPatches: '[photoId+sequence], photoId',
      strokes: 'id, photoId',
      models: 'id, trialId',
      figures: 'id, photoId, current',
      pointSets: 'id, photoId',
      pointCalls: '[pointSetId+pointIndex+observer], pointSetId',
      ratedVariables: 'id, trialId',
      ratings: 'id, trialId',
      jobs: 'photoId, state',
      auditEntries: 'id, subjectId',
      deviations: 'id, trialId',
      settings: 'name',
    },
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
  {
    version: 3,
    // a trial is one record with its plan; no program ever wrote to the tables that go
    stores: {
      scores: '[trialId+variable+plot+ratingDate+rater], trialId',
      weather: 'trialId',
      treatments: null,
      applications: null,
      plots: null,
      ratingDates: null,
      ratedVariables: null,
      ratings: null,
      deviations: null,
    },
    async upgrade(transaction) {
      const photos = transaction.table('photos');
      for (const stored of await photos.toArray()) await photos.put(photoFromVersion2(stored));
    },
  },
  {
    version: 4,
    // calls are only ever added, so a point no longer keys them; no program ever wrote to the table that goes
    stores: { ...presentStores, pointCalls: null },
  },
];

export const CURRENT_VERSION = SCHEMA_VERSIONS.at(-1)!.version;
