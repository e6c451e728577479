import { readFileSync } from 'node:fs';
import { expect, test, vi } from 'vitest';
import { openPhotoArea } from '../../../src/app/session/photoArea.ts';
import type { Session } from '../../../src/app/session/session.ts';
import { SOFTWARE_VERSION } from '../../../src/app/session/softwareVersion.ts';
import { MemoryDatabase } from '../../../src/storage/memoryDatabase.ts';
import { NewerDatabase } from '../../../src/storage/newerDatabase.ts';
import { CURRENT_VERSION } from '../../../src/storage/schemaVersions.ts';
import { FRAME, steppingClock, until } from '../../storage/support.ts';
import { FakeWorker } from '../measuring/fakeWorkers.ts';
import { testBrowser } from './testSession.ts';

const sample = (name: string) =>
  new File([readFileSync(new URL(`../../../sample-images/photos/${name}`, import.meta.url))], name);
const first = sample('2027-05-17_101.jpg');
const second = sample('2027-05-17_102.jpg');

const allMeasured = (session: Session, count: number) =>
  until(() => {
    const photos = session.photos.get();
    return photos.length === count && photos.every(({ work }) => work === null);
  }, `${count} photos measured`);

test('the version kept with figures is that of the package', () => {
  const { version } = JSON.parse(readFileSync(new URL('../../../package.json', import.meta.url), 'utf8'));
  expect(SOFTWARE_VERSION).toBe(version);
});

test('photos are taken in, named by their file, measured, and found by another session', async () => {
  const { open } = testBrowser();
  const session = await open();
  const answers = await session.addFiles([first, second]);
  expect(answers.map(({ name, state }) => [name, state])).toEqual([
    ['2027-05-17_101.jpg', 'added'],
    ['2027-05-17_102.jpg', 'added'],
  ]);
  await allMeasured(session, 2);
  expect(session.progress.get()).toEqual({
    total: 2,
    done: 2,
    failed: 0,
    running: 0,
    paused: false,
    trouble: null,
  });
  expect(session.photos.get()[0]).toMatchObject({
    plot: '101',
    ratingDate: '2027-05-17',
    namedBy: 'file-name',
  });
  expect((await session.thumbnail(session.photos.get()[0]!.id))?.type).toBe('image/jpeg');
  const later = await open();
  expect(later.photos.get()).toEqual(session.photos.get());
});

test('what is no photo is refused by name, a copy is named, and the rest is taken in', async () => {
  const session = await testBrowser().open();
  const answers = await session.addFiles([
    new File([], 'empty.jpg'),
    new File(['plot 101: fine'], 'notes.jpg'),
    first,
    new File([first], 'copy of it.jpg'),
  ]);
  expect(answers).toMatchObject([
    { name: 'empty.jpg', state: 'refused', problem: { code: 'empty-file' } },
    { name: 'notes.jpg', state: 'refused', problem: { code: 'not-a-picture' } },
    { name: '2027-05-17_101.jpg', state: 'added' },
    { name: 'copy of it.jpg', state: 'duplicate', duplicateOf: '2027-05-17_101.jpg' },
  ]);
  expect(session.photos.get()).toHaveLength(1);
});

test('a file that the browser can no longer read is named', async () => {
  const session = await testBrowser().open();
  const gone = new File(['x'], 'gone.jpg');
  gone.arrayBuffer = () => Promise.reject(new DOMException('moved away', 'NotReadableError'));
  expect(await session.addFiles([gone])).toEqual([
    { name: 'gone.jpg', state: 'refused', problem: { code: 'file-unreadable', detail: 'moved away' } },
  ]);
});

test('sample photos come with their frames; one that cannot be fetched is named, the rest is taken in', async () => {
  const sampleOf = (file: File | null, name: string) => ({
    name,
    frame: FRAME,
    neutral: [350, 502, 55, 55] as const,
    ignored: [],
    fetch: () => (file ? Promise.resolve(file) : Promise.reject(new TypeError('no connection'))),
  });
  const session = await testBrowser().open({
    loadSamplePhotos: async () => [
      sampleOf(first, first.name),
      sampleOf(null, 'b.jpg'),
      sampleOf(second, second.name),
    ],
  });
  expect((await session.addSamplePhotos()).map(({ state }) => state)).toEqual(['added', 'refused', 'added']);
  await allMeasured(session, 2);
  expect(session.photos.get()[0]).toMatchObject({
    frame: FRAME,
    figure: { settings: { frame: FRAME, neutral: [350, 502, 55, 55] } },
  });
});

test('the mask belongs to the figure; one that was lost is made again without a second figure', async () => {
  const { open, database } = testBrowser();
  const session = await open();
  const [answer] = await session.addFiles([first]);
  const id = answer?.state === 'added' ? answer.photoId : '';
  await allMeasured(session, 1);
  const { bytes, mask } = await session.openPhoto(id);
  expect(bytes.byteLength).toBe(first.size);
  expect(mask).toEqual({ widthPx: 2, heightPx: 1, labels: new Uint8Array([1, 2]) });

  await database.transact('write', ['automaticMasks'], ({ automaticMasks }) => automaticMasks.delete(id));
  const later = await open({ now: steppingClock('2027-05-18T08:00:00.000Z') });
  const figureId = later.photos.get()[0]?.figure?.id;
  expect(await later.mask(id)).toBeNull();
  await until(async () => (await later.mask(id)) !== null, 'the mask made again');
  expect(later.photos.get()[0]?.figure?.id).toBe(figureId);
});

test('few masks are held in memory: those looked at last', async () => {
  const { open, database } = testBrowser();
  const session = await open();
  const names = ['101', '102', '103', '104'].map((plot) => `2027-05-17_${plot}.jpg`);
  await session.addFiles(names.map(sample));
  await allMeasured(session, 4);
  const ids = session.photos.get().map(({ id }) => id);
  for (const id of ids) await until(async () => (await session.openPhoto(id)).mask !== null, 'the mask');
  await database.transact('write', ['automaticMasks'], async ({ automaticMasks }) => {
    for (const id of ids) await automaticMasks.delete(id);
  });
  expect((await session.mask(ids[3]!))?.labels).toHaveLength(2);
  expect(await session.mask(ids[0]!)).toBeNull();
});

test('of quick frame changes the newest is measured', async () => {
  const session = await testBrowser().open();
  await session.addFiles([first]);
  await allMeasured(session, 1);
  const { id } = session.photos.get()[0]!;
  const frames = [500, 600, 700].map((mm) => ({ ...FRAME, sizeMm: [mm, mm] as const }));
  const area = await session.open(openPhotoArea(id));
  for (const frame of frames) area.change((before) => ({ ...before, frame, frameBy: 'person' }));
  await until(
    () => session.photos.get()[0]?.figure?.settings.frame?.sizeMm?.[0] === 700,
    'the last frame measured',
  );
  expect(session.photos.get()[0]).toMatchObject({ stale: false, frame: { sizeMm: [700, 700] } });
});

test('photos removed are gone; opening one whose bytes are lost says so', async () => {
  const { open, database } = testBrowser();
  const session = await open();
  await session.addFiles([first, second]);
  await allMeasured(session, 2);
  const [a, b] = session.photos.get().map(({ id }) => id) as [string, string];
  await session.removePhotos([a]);
  await until(() => session.photos.get().length === 1);
  await database.transact('write', ['photoBytes'], ({ photoBytes }) => photoBytes.delete(b));
  await expect(session.openPhoto(b)).rejects.toMatchObject({ name: 'PhotoBytesMissing' });
});

test('storage: how the browser keeps and decodes, whether others look on, when it was saved', async () => {
  const { open, persist } = testBrowser();
  const session = await open();
  await until(() => {
    const storage = session.storageState.get();
    return storage.state === 'ready' && storage.decoder === 'same';
  });
  expect(session.storageState.get()).toMatchObject({
    state: 'ready',
    persisted: false,
    savedAt: null,
    otherTabs: 0,
  });
  expect(persist.asked).toBe(0);
  await session.addFiles([first]);
  await until(() => persist.asked === 1);
  const other = await open();
  await until(() => session.storageState.get().state === 'ready');
  for (const one of [session, other]) {
    await until(() => {
      const storage = one.storageState.get();
      return storage.state === 'ready' && storage.otherTabs === 1;
    }, 'the other tab noticed');
  }
  expect(session.storageState.get()).toMatchObject({
    persisted: true,
    savedAt: expect.stringMatching(/^2027-/),
  });
  await other.close();
  await until(() => {
    const storage = session.storageState.get();
    return storage.state === 'ready' && storage.otherTabs === 0;
  }, 'the other tab gone');
});

test('a full disk is said with its size, and what is there can still be read', async () => {
  const { open } = testBrowser({
    openDatabase: async () => new MemoryDatabase({ quotaBytes: first.size + 50 }),
  });
  const session = await open();
  const third = sample('2027-05-17_103.jpg');
  const reading = vi.spyOn(third, 'arrayBuffer');
  const answers = await session.addFiles([first, second, third]);
  expect(answers).toMatchObject([
    { state: 'added' },
    { name: second.name, state: 'refused', problem: { code: 'storage-full' } },
    { name: third.name, state: 'refused', problem: { code: 'storage-full' } },
  ]);
  // nothing more is pressed into a full disk
  expect(reading).not.toHaveBeenCalled();
  await until(() => session.storageState.get().state === 'full');
  await vi.waitFor(() =>
    expect(session.storageState.get()).toEqual({ state: 'full', usedBytes: 90, quotaBytes: 100 }),
  );
  const { bytes } = await session.openPhoto(session.photos.get()[0]!.id);
  expect(bytes.byteLength).toBe(first.size);
});

test.each([
  [
    'a newer database',
    () => Promise.reject(new NewerDatabase('test', 9, CURRENT_VERSION)),
    { state: 'newer', storedVersion: 9, knownVersion: CURRENT_VERSION },
  ],
  [
    'a database the browser cannot open',
    () => Promise.reject(new Error('disk damaged')),
    { state: 'failed', failure: { code: 'not-opened', detail: 'disk damaged' } },
  ],
])('%s is a state with an export, and takes nothing in', async (_what, openDatabase, state) => {
  const exported = new Blob(['{}']);
  const session = await testBrowser().open({ openDatabase, exportRaw: async () => exported });
  expect(session.storageState.get()).toEqual(state);
  expect(session.photos.get()).toEqual([]);
  expect(await session.exportRaw()).toBe(exported);
  expect(await session.addFiles([first])).toMatchObject([
    { state: 'refused', problem: { code: 'storage-failed' } },
  ]);
});

test('a database that another tab holds in an older version opens when that tab is closed', async () => {
  const database = new MemoryDatabase();
  let letGo = () => {};
  const session = await testBrowser().open({
    async openDatabase({ onBlocked }) {
      onBlocked();
      await new Promise<void>((resolve) => {
        letGo = resolve;
      });
      return database;
    },
  });
  expect(session.storageState.get()).toEqual({ state: 'blocked' });
  letGo();
  await until(() => session.storageState.get().state === 'ready');
  expect(await session.addFiles([first])).toMatchObject([{ state: 'added' }]);
});

test('a database taken over by a newer tab stays lost, whatever fails after that', async () => {
  const database = new MemoryDatabase();
  let takeOver = (_newer: NewerDatabase) => {};
  const session = await testBrowser().open({
    async openDatabase({ onTakenOver }) {
      takeOver = onTakenOver;
      return database;
    },
  });
  await session.addFiles([first]);
  await allMeasured(session, 1);
  database.close();
  takeOver(new NewerDatabase('test', CURRENT_VERSION + 1, CURRENT_VERSION));
  await session.changePhoto(session.photos.get()[0]!.id, { plot: '7' });
  expect(session.storageState.get()).toEqual({
    state: 'newer',
    storedVersion: CURRENT_VERSION + 1,
    knownVersion: CURRENT_VERSION,
  });
});

test('where nothing was ever stored nobody waits for the database, and photos wait for it', async () => {
  let open = () => {};
  const session = await testBrowser().open({
    nothingStored: async () => true,
    async openDatabase() {
      await new Promise<void>((resolve) => {
        open = resolve;
      });
      return new MemoryDatabase();
    },
  });
  expect(session.storageState.get()).toEqual({ state: 'opening', empty: true });
  const adding = session.addFiles([first]);
  await new Promise((resolve) => setTimeout(resolve, 150));
  open();
  expect(await adding).toMatchObject([{ state: 'added' }]);
  expect(session.storageState.get()).toMatchObject({ state: 'ready' });
});

test('photos that the browser lost are missed, those taken out by hand are not', async () => {
  const browser = testBrowser();
  const session = await browser.open();
  await session.addFiles([first]);
  await allMeasured(session, 1);
  await session.close();
  const later = await browser.open({ openDatabase: async () => new MemoryDatabase() });
  const storage = later.storageState.get();
  expect(storage.state === 'ready' && storage.lost).toMatchObject({ photos: 1 });
  later.acknowledgeLoss();
  expect(later.storageState.get()).toMatchObject({ state: 'ready', lost: null });

  await later.addFiles([second]);
  await allMeasured(later, 1);
  await later.removePhotos([later.photos.get()[0]!.id]);
  await until(() => later.photos.get().length === 0);
  await later.close();
  const last = await browser.open({ openDatabase: async () => new MemoryDatabase() });
  expect(last.storageState.get()).toMatchObject({ state: 'ready', lost: null });
});

test('a database that the browser closed is said, and not taken for an empty one', async () => {
  let closeIt = () => {};
  const database = new MemoryDatabase();
  const session = await testBrowser().open({
    async openDatabase({ onClosed }) {
      closeIt = () => {
        database.close();
        onClosed();
      };
      return database;
    },
  });
  await session.addFiles([first]);
  await allMeasured(session, 1);
  closeIt();
  expect(session.storageState.get()).toMatchObject({
    state: 'failed',
    failure: { code: 'closed' },
  });
  expect(await session.addFiles([second])).toMatchObject([
    { state: 'refused', problem: { code: 'storage-failed', detail: 'database-closed' } },
  ]);
});

test('a page that is neither https nor localhost is told why it cannot keep photos', async () => {
  const session = await testBrowser().open({ secureContext: false });
  expect(session.storageState.get()).toMatchObject({
    state: 'failed',
    failure: { code: 'insecure-context' },
  });
});

test('workers that do not start are said once, and tried again on request', async () => {
  let starts = false;
  const session = await testBrowser().open({ startWorker: () => new FakeWorker({ starts }) });
  await session.addFiles([first]);
  await until(() => session.progress.get().trouble !== null);
  expect(session.progress.get().trouble).toMatchObject({ code: 'no-workers' });
  starts = true;
  await session.resume();
  expect(session.progress.get().trouble).toBeNull();
  await until(() => session.photos.get()[0]?.work === 'running');
});

test('pause, cancel, retry', async () => {
  const session = await testBrowser().open();
  await session.pause();
  await session.addFiles([first]);
  await until(() => session.photos.get()[0]?.work === 'paused');
  await session.cancelAll();
  await until(() => session.photos.get()[0]?.work === null);
  expect(session.photos.get()[0]?.figure).toBeNull();
  await session.retry([session.photos.get()[0]!.id]);
  await until(() => session.photos.get()[0]?.work === 'paused');
  await session.resume();
  await until(() => session.photos.get()[0]?.figure !== null);
});
