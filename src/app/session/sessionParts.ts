import type { Database } from '../../storage/database.ts';
import { exportDatabase } from '../../storage/exportDatabase.ts';
import type { IndexedDatabaseOptions } from '../../storage/indexedDatabase.ts';
import { storedVersion } from '../../storage/storedVersion.ts';
import { browserTabChannel, type TabChannel } from '../../storage/tabChannel.ts';
import { type CorrectWorker, startCorrectWorker } from '../measuring/correctWorker.ts';
import { browserFarewell, type Farewell } from '../measuring/farewell.ts';
import { type LabelWorker, startLabelWorker } from '../measuring/labelWorker.ts';
import type { MeasureWorker } from '../measuring/measureWorker.ts';
import type { Locks } from '../measuring/measuringRight.ts';
import { deviceFacts, poolSize } from '../measuring/poolSize.ts';
import { startLargeRecords } from '../measuring/startLargeRecords.ts';
import { startMeasureWorker } from '../measuring/startMeasureWorker.ts';
import { startTeachWorker, type TeachWorker } from '../measuring/teachWorker.ts';
import type { OpenLargeRecords } from './archive/largeRecordStore.ts';
import { browserKeptMark, type KeptMark } from './keptMark.ts';
import { browserLocalStore } from './localStore.ts';
import type { SamplePhoto } from './samplePhotos.ts';
import type { PresenceLocks } from './tabPresence.ts';

/** What a session is made of. */
export interface SessionParts {
  /** Names the database, the channel and the locks. @default "swardbook" */
  readonly projectName: string;
  /** Browsers offer hashes and locks only to pages opened over https or from localhost. */
  readonly secureContext: boolean;
  /** The browser's settings allow this address no storage. */
  readonly storageForbidden: boolean;
  /** Whether nothing was ever stored in this browser. */
  nothingStored(): Promise<boolean>;
  openDatabase(
    handlers: Pick<IndexedDatabaseOptions, 'onBlocked' | 'onTakenOver' | 'onClosed'>,
  ): Promise<Database>;
  /** Works on a database that cannot be opened, too. */
  exportRaw(): Promise<Blob>;
  openChannel(): TabChannel;
  readonly farewell: Farewell;
  readonly keptMark: KeptMark;
  readonly locks: Locks & PresenceLocks;
  /** The browser's keeper of quotas; null where it has none. */
  readonly storageManager: Pick<StorageManager, 'persist' | 'persisted' | 'estimate'> | null;
  startWorker(): MeasureWorker;
  startTeachWorker(): TeachWorker;
  startLabelWorker(): LabelWorker;
  startCorrectWorker(): CorrectWorker;
  /** Reads and keeps photos aside of the page. @default the page does it */
  openLargeRecords?(): OpenLargeRecords;
  readonly poolSize: number;
  loadSamplePhotos(): Promise<readonly SamplePhoto[]>;
  readonly now: () => Date;
  readonly newId: () => string;
}

/** The browser's own parts. */
export function browserParts(projectName = 'swardbook'): SessionParts {
  const { store: localStore, forbidden } = browserLocalStore();
  return {
    projectName,
    secureContext: globalThis.isSecureContext,
    storageForbidden: forbidden,
    nothingStored: async () => (await storedVersion(indexedDB, projectName)) === null,
    async openDatabase(handlers) {
      const { openIndexedDatabase } = await import('../../storage/indexedDatabase.ts');
      return openIndexedDatabase({ name: projectName, indexedDB, IDBKeyRange, ...handlers });
    },
    exportRaw: () => exportDatabase(indexedDB, projectName),
    openChannel: () => browserTabChannel(projectName),
    farewell: browserFarewell(`${projectName} left in order`, localStore),
    keptMark: browserKeptMark(`${projectName} kept`, localStore),
    locks: navigator.locks as Locks & PresenceLocks,
    storageManager: navigator.storage ?? null,
    startWorker: startMeasureWorker,
    startTeachWorker,
    startLabelWorker,
    startCorrectWorker,
    openLargeRecords: () => startLargeRecords(projectName),
    poolSize: poolSize(deviceFacts()),
    loadSamplePhotos: async () => (await import('./samplePhotos.ts')).samplePhotos,
    now: () => new Date(),
    newId: () => crypto.randomUUID(),
  };
}
