import { IDBFactory, IDBKeyRange } from 'fake-indexeddb';
import { photoPoint } from '../../src/core/geometry/points.ts';
import { DEFAULT_CLASSES } from '../../src/core/trial/defaultClasses.ts';
import type { Database } from '../../src/storage/database.ts';
import type { NewFigure } from '../../src/storage/figureStore.ts';
import { type IndexedDatabaseOptions, openIndexedDatabase } from '../../src/storage/indexedDatabase.ts';
import { MemoryDatabase } from '../../src/storage/memoryDatabase.ts';
import type { NewPhoto } from '../../src/storage/newPhotoRecords.ts';
import type { Overview } from '../../src/storage/projectOverview.ts';
import { createProjectStore, type ProjectStore } from '../../src/storage/projectStore.ts';
import type { Written } from '../../src/storage/storageProblem.ts';
import type { TabChannel } from '../../src/storage/tabChannel.ts';

/** A clock that goes on by one second whenever it is read. */
export function steppingClock(start = '2027-05-17T08:00:00.000Z'): () => Date {
  let at = Date.parse(start) - 1000;
  return () => {
    at += 1000;
    return new Date(at);
  };
}

/** Ids that count: a1, a2, ... */
export function countingIds(prefix = 'id'): () => string {
  let count = 0;
  return () => {
    count += 1;
    return `${prefix}${count}`;
  };
}

/** A browser's database of its own, empty. */
export const newIndexedDB = (): Pick<IndexedDatabaseOptions, 'indexedDB' | 'IDBKeyRange'> => ({
  indexedDB: new IDBFactory(),
  IDBKeyRange,
});

export const openTestDatabase = (
  browser: Pick<IndexedDatabaseOptions, 'indexedDB' | 'IDBKeyRange'>,
  handlers: Partial<Pick<IndexedDatabaseOptions, 'onBlocked' | 'onTakenOver' | 'onClosed'>> = {},
): Promise<Database> =>
  openIndexedDatabase({
    name: 'test',
    onBlocked: () => {},
    onTakenOver: () => {},
    onClosed: () => {},
    ...browser,
    ...handlers,
  });

/** Both kinds of database, for tests that hold for either. */
export const DATABASE_KINDS: readonly (readonly [string, () => Promise<Database>])[] = [
  ['in memory', async () => new MemoryDatabase()],
  ['in IndexedDB', () => openTestDatabase(newIndexedDB())],
];

export const storeOver = (database: Database, channel: TabChannel | null = null, idPrefix = 'id') =>
  createProjectStore({ database, channel, now: steppingClock(), newId: countingIds(idPrefix) });

export function newPhoto(name: string, facts: Partial<NewPhoto> = {}): NewPhoto {
  const bytes = new TextEncoder().encode(`bytes of ${name}`);
  return {
    name,
    bytes: bytes.buffer,
    // the store takes the hash as given
    sha256: Buffer.from(name).toString('hex').padStart(64, '0').slice(-64),
    plot: '101',
    ratingDate: '2027-05-17',
    namedBy: 'file-name',
    widthPx: 1000,
    heightPx: 750,
    frame: null,
    neutral: null,
    ...facts,
  };
}

export const FRAME = {
  corners: [photoPoint(200, 80), photoPoint(800, 90), photoPoint(790, 680), photoPoint(190, 660)],
  sizeMm: [500, 500],
} as const;

export function newFigure(facts: Partial<NewFigure> = {}): NewFigure {
  return {
    cover: [
      { classId: 'ryegrass', pixels: 700, coverFraction: 0.7 },
      { classId: 'weedy-grass', pixels: 200, coverFraction: 0.2 },
      { classId: 'bare-ground', pixels: 100, coverFraction: 0.1 },
    ],
    flags: [],
    measuredPixels: 1000,
    millimetresPerPixel: 0.8,
    modelId: 'start-1',
    method: 'automatic',
    softwareVersion: '0.1.0',
    decoder: 'browser same',
    settings: { classes: DEFAULT_CLASSES, frame: null, ignored: [], neutral: null },
    ...facts,
  };
}

export const FACTS = { widthPx: 1000, heightPx: 750, takenAt: null };

/** The value of a write that must have been stored. */
export async function stored<T>(writing: Promise<Written<T>>): Promise<T> {
  const written = await writing;
  if (!written.written) throw new Error(`not written: ${JSON.stringify(written.problem)}`);
  return written.value;
}

/** Adds a photo; its id. */
export async function addPhoto(
  store: ProjectStore,
  name: string,
  facts: Partial<NewPhoto> = {},
): Promise<string> {
  return (await stored(store.photos.add(newPhoto(name, facts)))).photo.id;
}

/** The overview as it is read from the store now. */
export async function overviewOf(store: ProjectStore): Promise<Overview> {
  let overview: Overview | undefined;
  const stop = await store.observeOverview(
    (next) => {
      overview = next;
    },
    (error) => {
      throw error;
    },
  );
  stop();
  return overview!;
}

/** Channels between the tabs of one pretended browser: what one sends the others hear, later. */
export function testChannels(): () => TabChannel {
  const tabs = new Set<(message: unknown) => void>();
  return () => {
    const own: ((message: unknown) => void)[] = [];
    const hear = (message: unknown) => {
      for (const listener of own) listener(message);
    };
    tabs.add(hear);
    return {
      send(message) {
        for (const tab of tabs) if (tab !== hear) queueMicrotask(() => tab(structuredClone(message)));
      },
      listen: (listener) => void own.push(listener),
      close: () => void tabs.delete(hear),
    };
  };
}

/** Waits until something holds; fails after two seconds. */
export async function until(holds: () => boolean | Promise<boolean>, what = 'the condition'): Promise<void> {
  for (const end = Date.now() + 2000; Date.now() < end; ) {
    if (await holds()) return;
    await new Promise((resolve) => setTimeout(resolve, 2));
  }
  throw new Error(`${what} did not come true within 2 s`);
}
