import { readFileSync } from 'node:fs';
import { Dexie } from 'dexie';
import { forceCloseDatabase } from 'fake-indexeddb';
import { afterEach, describe, expect, test, vi } from 'vitest';
import { exportDatabase } from '../../src/storage/exportDatabase.ts';
import { NewerDatabase } from '../../src/storage/newerDatabase.ts';
import { CURRENT_VERSION } from '../../src/storage/schemaVersions.ts';
import { storedVersion } from '../../src/storage/storedVersion.ts';
import { TABLE_NAMES, type TableName } from '../../src/storage/tables.ts';
import {
  addPhoto,
  newIndexedDB,
  newPhoto,
  openTestDatabase,
  overviewOf,
  stored,
  storeOver,
  until,
} from './support.ts';

interface Sample {
  readonly stores: Readonly<Record<string, string>>;
  readonly records: Readonly<Record<string, readonly unknown[]>>;
}

/** `{"base64": ...}` stands for a buffer in kept samples. */
const reviveBytes = (_key: string, value: unknown) =>
  typeof value === 'object' && value !== null && 'base64' in value
    ? new Uint8Array(Buffer.from(String(value.base64), 'base64')).buffer
    : value;

const sampleOf = (version: number): Sample =>
  JSON.parse(
    readFileSync(new URL(`./fixtures/version${version}.json`, import.meta.url), 'utf8'),
    reviveBytes,
  );
const version1 = sampleOf(1);

type Browser = ReturnType<typeof newIndexedDB>;

/** Opens a database as a program of some version would, and keeps it open. */
async function openAsVersion(browser: Browser, version: number, { stores, records }: Sample): Promise<Dexie> {
  const dexie = new Dexie('test', browser);
  dexie.version(version).stores(stores);
  await dexie.open();
  for (const [table, rows] of Object.entries(records)) await dexie.table(table).bulkPut([...rows]);
  return dexie;
}

async function withVersion1(): Promise<Browser> {
  const browser = newIndexedDB();
  (await openAsVersion(browser, 1, version1)).close();
  return browser;
}

describe('a database of version 1', () => {
  test('opens, and everything is found where the present version keeps it', async () => {
    const browser = await withVersion1();
    const store = storeOver(await openTestDatabase(browser));
    expect(await storedVersion(browser.indexedDB, 'test')).toBe(CURRENT_VERSION);
    const { photos, jobs, paused } = await overviewOf(store);
    expect(photos).toMatchObject([
      {
        id: 'photo-1',
        name: '2027-05-17_101.jpg',
        plot: '101',
        ratingDate: '2027-05-17',
        namedBy: 'file-name',
        takenAt: null,
        widthPx: 1000,
        frame: {
          corners: [
            [221.7, 76.5],
            [809, 84.1],
            [788.8, 678.1],
            [205.6, 654],
          ],
          sizeMm: [500, 500],
        },
        figure: { id: 'figure-1', method: 'automatic', measuredPixels: 1000, flags: ['no-second-kind'] },
        stale: false,
        work: null,
      },
      { id: 'photo-2', name: 'IMG_0007.jpg', frame: null, figure: null, work: 'running' },
    ]);
    expect(jobs.get('photo-2')).toMatchObject({ deaths: 1, claim: null, batch: '2027-05-17T09:00:01.000Z' });
    expect(paused).toBe(true);
    expect(new Uint8Array((await store.photos.bytes('photo-1'))!)).toEqual(
      new Uint8Array([0xff, 0xd8, 0xff, 0xd9]),
    );
    expect((await store.photos.thumbnail('photo-1'))?.widthPx).toBe(2);
  });

  test('its records satisfy the present schemas, but for the damaged one, which is kept and named', async () => {
    const browser = await withVersion1();
    const database = await openTestDatabase(browser);
    const store = storeOver(database);
    await overviewOf(store);
    expect(store.unreadable().map(({ table, key }) => [table, key])).toEqual([['photos', 'photo-3']]);
    const damaged = await database.transact('read', ['photos'], ({ photos }) => photos.get('photo-3'));
    expect(damaged).toEqual(version1.records.photos![2]);
  });

  test('the job that ran when its page died counts that death', async () => {
    const store = storeOver(await openTestDatabase(await withVersion1()));
    expect(await stored(store.jobs.recover(new Set(), new Set()))).toEqual(['photo-2']);
    expect((await overviewOf(store)).photos[1]).toMatchObject({
      work: 'failed',
      problem: { code: 'worker-died', attempts: 2 },
    });
  });

  test('the second opening migrates nothing', async () => {
    const browser = await withVersion1();
    (await openTestDatabase(browser)).close();
    const store = storeOver(await openTestDatabase(browser));
    expect((await overviewOf(store)).photos).toHaveLength(2);
  });
});

describe('a database of version 2', () => {
  test('opens whole: photos keep their facts and gain a place, and trials can be planned', async () => {
    const browser = newIndexedDB();
    (await openAsVersion(browser, 2, sampleOf(2))).close();
    const store = storeOver(await openTestDatabase(browser), null, 'new');
    const { photos, paused } = await overviewOf(store);
    expect(photos).toMatchObject([
      { id: 'id1', plot: '101', place: null, ratingDate: '2027-05-17', namedBy: 'file-name' },
      { id: 'id2', plot: '102', place: null, ratingDate: '2027-05-17', namedBy: 'person' },
    ]);
    expect(photos[0]!.frame?.sizeMm).toEqual([500, 500]);
    expect(paused).toBe(true);
    expect(new TextDecoder().decode((await store.photos.bytes('id1'))!)).toBe('bytes of 2027-05-17_101.jpg');
    expect(store.unreadable()).toEqual([]);
    expect(await store.trials.all()).toEqual([]);
  });
});

describe('a database of version 3', () => {
  test('opens whole: trial, photos, figures and strokes are as they were, and there is room for what came since', async () => {
    const browser = newIndexedDB();
    const sample = sampleOf(3);
    (await openAsVersion(browser, 3, sample)).close();
    const database = await openTestDatabase(browser);
    const store = storeOver(database, null, 'new');
    const { photos, paused } = await overviewOf(store);
    expect(photos).toMatchObject([
      {
        name: '2027-05-17_101.jpg',
        plot: '101',
        frame: { sizeMm: [500, 500] },
        figure: { method: 'automatic' },
      },
      { name: '2027-05-17_102.jpg', plot: '103', namedBy: 'person', figure: null },
    ]);
    expect(paused).toBe(true);
    const [trial] = await store.trials.all();
    expect((await store.trials.open(trial!.id))?.scores).toHaveLength(1);
    const ids = photos.map(({ id }) => id);
    expect((await store.teaching.strokes(ids)).get(ids[0]!)).toMatchObject([{ classId: 'ryegrass' }]);
    const kept = await database.transact('read', TABLE_NAMES, async (tables) =>
      Promise.all(
        Object.keys(sample.records).map(async (name) => [name, await tables[name as TableName].all()]),
      ),
    );
    expect(Object.fromEntries(kept)).toEqual(sample.records);
    expect(store.unreadable()).toEqual([]);
  });
});

describe('a database of a newer version', () => {
  const newer: Sample = {
    stores: { photos: 'id, sha256, century', inventions: 'id' },
    records: { photos: [{ id: 'a', century: 22 }], inventions: [{ id: 'b', bytes: new ArrayBuffer(3) }] },
  };

  test('is refused with its version, and nothing in it is touched', async () => {
    const browser = newIndexedDB();
    (await openAsVersion(browser, CURRENT_VERSION + 1, newer)).close();
    const refusal = await openTestDatabase(browser).catch((error: unknown) => error);
    expect(refusal).toBeInstanceOf(NewerDatabase);
    expect((refusal as NewerDatabase).storedVersion).toBe(CURRENT_VERSION + 1);
    const again = await openAsVersion(browser, CURRENT_VERSION + 1, { ...newer, records: {} });
    expect(again.tables.map(({ name }) => name).sort()).toEqual(['inventions', 'photos']);
    expect(await again.table('photos').toArray()).toEqual(newer.records.photos);
    again.close();
  });

  test('can be exported record by record', async () => {
    const browser = newIndexedDB();
    (await openAsVersion(browser, CURRENT_VERSION + 1, newer)).close();
    const raw = JSON.parse(await (await exportDatabase(browser.indexedDB, 'test')).text(), reviveBytes);
    expect(raw).toMatchObject({ type: 'raw-records', databaseVersion: CURRENT_VERSION + 1 });
    expect(raw.tables).toEqual(newer.records);
  });
});

test('a database that is not there is not made by looking for its version', async () => {
  const { indexedDB } = newIndexedDB();
  expect(await storedVersion(indexedDB, 'test')).toBeNull();
  expect(await indexedDB.databases()).toEqual([]);
  await expect(exportDatabase(indexedDB, 'test')).rejects.toThrow('no database test');
});

test('an older tab that does not let go blocks the upgrade until it is closed', async () => {
  const browser = newIndexedDB();
  const older = await openAsVersion(browser, 1, version1);
  // an older page that does not close by itself
  older.on('versionchange', () => false);
  const onBlocked = vi.fn();
  let opened = false;
  const opening = openTestDatabase(browser, { onBlocked }).then((database) => {
    opened = true;
    return database;
  });
  await until(() => onBlocked.mock.calls.length > 0, 'being blocked');
  expect(opened).toBe(false);
  older.close();
  expect((await overviewOf(storeOver(await opening))).photos).toHaveLength(2);
});

test('a tab of a newer version takes the database over: this one is told, and its writes answer so', async () => {
  const browser = newIndexedDB();
  const onTakenOver = vi.fn();
  const store = storeOver(await openTestDatabase(browser, { onTakenOver }));
  await addPhoto(store, 'a.jpg');
  const newer = await openAsVersion(browser, CURRENT_VERSION + 1, { stores: {}, records: {} });
  expect(onTakenOver).toHaveBeenCalledWith(expect.objectContaining({ storedVersion: CURRENT_VERSION + 1 }));
  expect(await store.photos.add(newPhoto('b.jpg'))).toEqual({
    written: false,
    problem: { code: 'database-closed' },
  });
  newer.close();
});

test('a database that the browser closed by itself is not opened again in silence', async () => {
  const browser = newIndexedDB();
  const opened: IDBDatabase[] = [];
  const open = browser.indexedDB.open.bind(browser.indexedDB);
  browser.indexedDB.open = (name, version) => {
    const request = open(name, version);
    request.addEventListener('success', () => opened.push(request.result));
    return request;
  };
  const onClosed = vi.fn();
  const store = storeOver(await openTestDatabase(browser, { onClosed }));
  await addPhoto(store, 'a.jpg');
  // its type asks for the class where it takes a connection
  (forceCloseDatabase as unknown as (connection: IDBDatabase) => void)(opened.at(-1)!);
  await until(() => onClosed.mock.calls.length > 0, 'being told');
  expect(onClosed).toHaveBeenCalledOnce();
  expect(await store.photos.add(newPhoto('b.jpg'))).toMatchObject({
    written: false,
    problem: { code: 'database-closed' },
  });
});

describe('a disk that is full', () => {
  afterEach(() => vi.restoreAllMocks());

  test('is named, and the photo that did not fit is not half there', async () => {
    const browser = newIndexedDB();
    const store = storeOver(await openTestDatabase(browser));
    await addPhoto(store, 'a.jpg');
    const objectStore = (await import('fake-indexeddb')).IDBObjectStore.prototype;
    const { put } = objectStore;
    vi.spyOn(objectStore, 'put').mockImplementation(function (this: IDBObjectStore, ...[value, key]) {
      if (this.name === 'photoBytes') throw new DOMException('no space left', 'QuotaExceededError');
      return put.call(this, value, key);
    });
    expect(await store.photos.add(newPhoto('b.jpg'))).toEqual({
      written: false,
      problem: { code: 'quota-exceeded' },
    });
    vi.restoreAllMocks();
    expect((await overviewOf(store)).photos.map(({ name }) => name)).toEqual(['a.jpg']);
    await addPhoto(store, 'b.jpg');
  });
});

test('the tables of the database are those of the present version', async () => {
  const browser = newIndexedDB();
  (await openTestDatabase(browser)).close();
  const dexie = await new Dexie('test', browser).open();
  expect(dexie.tables.map(({ name }) => name).sort()).toEqual([...TABLE_NAMES].sort());
  dexie.close();
});
