import { expect, test } from 'vitest';
import { type Halt, JobRunner } from '../../../src/app/measuring/jobRunner.ts';
import { MeasuringRight } from '../../../src/app/measuring/measuringRight.ts';
import { WorkerPool } from '../../../src/app/measuring/workerPool.ts';
import type { LabelMask } from '../../../src/core/raster/labelMask.ts';
import { MemoryDatabase } from '../../../src/storage/memoryDatabase.ts';
import type { Overview } from '../../../src/storage/projectOverview.ts';
import type { TabChannel } from '../../../src/storage/tabChannel.ts';
import {
  addPhoto,
  countingIds,
  FRAME,
  overviewOf,
  stored,
  storeOver,
  testChannels,
  until,
} from '../../storage/support.ts';
import { FakeBrowserLocks } from './fakeLocks.ts';
import { doneOutcome, fakeWorkers, handClock } from './fakeWorkers.ts';
import { testFarewell } from './testFarewell.ts';

/** A pretended browser: one database, any number of tabs. */
function browser({ quotaBytes }: { quotaBytes?: number } = {}) {
  const database = new MemoryDatabase(quotaBytes === undefined ? {} : { quotaBytes });
  const locks = new FakeBrowserLocks();
  const openChannel = testChannels();
  const farewell = testFarewell();
  return { database, locks, openTab: (name: string, size = 1, starts = true) => openTab(name, size, starts) };

  async function openTab(name: string, size: number, starts: boolean) {
    const channel: TabChannel = openChannel();
    const store = storeOver(database, channel, `${name}-`);
    const { workers, startWorker } = fakeWorkers({ starts });
    const halts: Halt[] = [];
    const masks: [string, LabelMask][] = [];
    const runner = new JobRunner({
      store,
      pool: new WorkerPool({ startWorker, size, every: handClock().every }),
      right: new MeasuringRight(locks.tab(name), 'measuring'),
      farewell,
      newId: countingIds(`${name}-claim-`),
      softwareVersion: '0.1.0',
      onMask: (figureId, mask) => void masks.push([figureId, mask]),
      onHalt: (halt) => void halts.push(halt),
    });
    let overview: Overview | undefined;
    await store.observeOverview(
      (next) => {
        overview = next;
        runner.update(next);
      },
      (error) => {
        throw error;
      },
    );
    runner.start();
    const photo = (id: string) => overview!.photos.find((one) => one.id === id);
    const working = () => workers.filter(({ isMeasuring }) => isMeasuring);
    const tab = {
      store,
      runner,
      workers,
      halts,
      masks,
      photo,
      working,
      /** Names of the photos being measured. */
      measuring: () => overview!.photos.filter(({ work }) => work === 'running').map((one) => one.name),
      /** Waits until this photo is in a worker. */
      async untilMeasuring(id: string) {
        await until(() => {
          const claim = overview!.jobs.get(id)?.claim;
          return working().some(({ jobs }) => jobs.at(-1)!.jobId === claim);
        }, `${id} being measured`);
      },
      /** The worker that has this photo. */
      workerOf(id: string) {
        const claim = overview!.jobs.get(id)?.claim;
        return working().find(({ jobs }) => jobs.at(-1)!.jobId === claim)!;
      },
      /** Answers for every worker until nothing waits in the store, and the list says so too. */
      async measureAll() {
        await until(async () => {
          for (const worker of working()) worker.answer();
          const { photos } = await overviewOf(store);
          const over = photos.every(({ work }) => work === null || work === 'failed');
          return over && JSON.stringify(photos) === JSON.stringify(overview!.photos);
        }, 'all photos done');
      },
    };
    return tab;
  }
}

test('photos are measured one after the other, each with its figure, thumbnail and mask', async () => {
  const tab = await browser().openTab('tab');
  const ids: string[] = [];
  for (const name of ['a', 'b', 'c']) ids.push(await addPhoto(tab.store, name));
  await tab.measureAll();
  for (const id of ids) {
    expect(tab.photo(id)).toMatchObject({
      work: null,
      figure: { decoder: 'browser same', modelId: 'start-1' },
    });
    expect((await tab.store.photos.thumbnail(id))?.widthPx).toBe(2);
    await tab.runner.settled(id);
    const mask = await tab.store.photos.automaticMask(id);
    expect(mask).toMatchObject({ encoding: 'label-runs deflate-raw', figureId: tab.photo(id)!.figure!.id });
  }
  expect(tab.workers).toHaveLength(1);
});

test('one that fails is named, and the others are done', async () => {
  const tab = await browser().openTab('tab');
  const [bad, good] = [await addPhoto(tab.store, 'bad'), await addPhoto(tab.store, 'good')];
  await tab.untilMeasuring(bad);
  const facts = { widthPx: 9, heightPx: 8, takenAt: null };
  const problem = { code: 'frame-corners-crossed' } as const;
  tab.workerOf(bad).answer({ state: 'failed', problem, facts, checked: null, thumbnail: null });
  await tab.measureAll();
  expect(tab.photo(bad)).toMatchObject({ work: 'failed', problem, figure: null, widthPx: 9 });
  expect(tab.photo(good)).toMatchObject({ work: null, problem: null });
});

test('the photo on screen is measured next, and its mask is handed over at once', async () => {
  const tab = await browser().openTab('tab');
  const [a, b, c] = [
    await addPhoto(tab.store, 'a'),
    await addPhoto(tab.store, 'b'),
    await addPhoto(tab.store, 'c'),
  ];
  await tab.untilMeasuring(a);
  tab.runner.setOpenPhoto(c);
  tab.workerOf(a).answer();
  await tab.untilMeasuring(c);
  expect(tab.photo(b)?.work).toBe('waiting');
  tab.workerOf(c).answer();
  await until(() => tab.photo(c)?.work === null);
  expect(tab.masks).toEqual([
    [tab.photo(c)!.figure!.id, { widthPx: 2, heightPx: 1, labels: new Uint8Array([1, 2]) }],
  ]);
});

test('a frame moved while its photo is measured: the run is cancelled and the newest frame is measured', async () => {
  const tab = await browser().openTab('tab');
  const id = await addPhoto(tab.store, 'a');
  await tab.untilMeasuring(id);
  const first = tab.working()[0]!;
  await stored(tab.store.areas.change([id], (area) => ({ ...area, frame: FRAME }), null));
  await until(() => first.cancelled.length === 1, 'the cancel message');
  // a late result all the same: it is not stored
  first.answer(doneOutcome(first.jobs[0]!.settings));
  await tab.untilMeasuring(id);
  expect(tab.photo(id)?.figure).toBeNull();
  expect(tab.workerOf(id).jobs.at(-1)?.settings.frame).toEqual(FRAME);
  await tab.measureAll();
  expect(tab.photo(id)).toMatchObject({ stale: false, figure: { settings: { frame: FRAME } } });
});

test('cancelling stops what runs and forgets what waits', async () => {
  const tab = await browser().openTab('tab');
  const ids = [await addPhoto(tab.store, 'a'), await addPhoto(tab.store, 'b')];
  await tab.untilMeasuring(ids[0]!);
  const worker = tab.working()[0]!;
  await stored(tab.store.jobs.cancelAll());
  await until(() => worker.cancelled.length === 1, 'the cancel message');
  worker.answer({ state: 'cancelled' });
  await until(() => ids.every((id) => tab.photo(id)?.work === null));
  expect(ids.map((id) => tab.photo(id)?.figure)).toEqual([null, null]);
  expect(worker.jobs).toHaveLength(1);
  // asked for again, they are measured
  await stored(tab.store.jobs.enqueue(ids));
  await tab.measureAll();
  expect(ids.every((id) => tab.photo(id)?.figure)).toBe(true);
});

test('a job that was gone when it was to be taken is taken when it is there again', async () => {
  const tab = await browser().openTab('tab');
  await stored(tab.store.settings.set('measuring-paused', true));
  const id = await addPhoto(tab.store, 'a');
  const waiting = { ...(await overviewOf(tab.store)), paused: false };
  await stored(tab.store.jobs.cancelAll());
  await stored(tab.store.settings.set('measuring-paused', false));
  await until(() => tab.photo(id)?.work === null);
  // an overview from before the cancel
  tab.runner.update(waiting);
  await tab.runner.settled(id);
  expect(tab.workers).toEqual([]);
  await stored(tab.store.jobs.enqueue([id]));
  await tab.untilMeasuring(id);
  await tab.measureAll();
});

test('a removed photo is dropped in the middle of its measuring', async () => {
  const tab = await browser().openTab('tab');
  const id = await addPhoto(tab.store, 'a');
  await tab.untilMeasuring(id);
  const worker = tab.working()[0]!;
  await stored(tab.store.photos.remove([id], null));
  await until(() => worker.cancelled.length === 1, 'the cancel message');
  worker.answer();
  await tab.runner.settled(id);
  expect((await overviewOf(tab.store)).photos).toEqual([]);
  expect(await tab.store.photos.automaticMask(id)).toBeNull();
});

test('paused, what runs is finished and nothing new is begun; it stays so in a page opened later', async () => {
  const { openTab, locks } = browser();
  const tab = await openTab('tab');
  const [a, b] = [await addPhoto(tab.store, 'a'), await addPhoto(tab.store, 'b')];
  await tab.untilMeasuring(a);
  await stored(tab.store.settings.set('measuring-paused', true));
  await until(() => tab.photo(b)?.work === 'paused');
  tab.workerOf(a).answer();
  await until(() => tab.photo(a)?.work === null);
  locks.kill('tab');
  const later = await openTab('later');
  await new Promise((resolve) => setTimeout(resolve, 20));
  expect(later.photo(b)?.work).toBe('paused');
  expect(later.workers).toEqual([]);
  await stored(later.store.settings.set('measuring-paused', false));
  await later.measureAll();
  expect(later.photo(b)?.figure).not.toBeNull();
});

test('a page that died is followed by one that goes on; the photo it died over waits, counted', async () => {
  const { openTab, locks } = browser();
  const dead = await openTab('dead');
  const [a, b] = [await addPhoto(dead.store, 'a'), await addPhoto(dead.store, 'b')];
  await dead.untilMeasuring(a);
  locks.kill('dead');
  const next = await openTab('next');
  // the one under suspicion comes last
  await next.untilMeasuring(b);
  expect(next.photo(a)?.work).toBe('waiting');
  next.workerOf(b).answer();
  await next.untilMeasuring(a);
  locks.kill('next');
  const third = await openTab('third');
  await until(() => third.photo(a)?.work === 'failed');
  expect(third.photo(a)?.problem).toEqual({ code: 'worker-died', attempts: 2 });
  expect(third.photo(b)).toMatchObject({ work: null, problem: null });
  await stored(third.store.jobs.enqueue([a]));
  await third.measureAll();
  expect(third.photo(a)?.figure).not.toBeNull();
});

test('a page that is left, with no time for its database, leaves no mark', async () => {
  const { openTab, locks } = browser();
  let page = await openTab('page 1');
  const id = await addPhoto(page.store, 'a');
  for (const next of [2, 3, 4]) {
    await page.untilMeasuring(id);
    page.runner.leave();
    locks.kill(`page ${next - 1}`);
    page = await openTab(`page ${next}`);
  }
  await page.untilMeasuring(id);
  expect((await overviewOf(page.store)).jobs.get(id)?.deaths).toBe(0);
  // what was left once is not left for ever: a death after that counts
  locks.kill('page 4');
  const afterDeath = await openTab('page 5');
  await afterDeath.untilMeasuring(id);
  expect((await overviewOf(afterDeath.store)).jobs.get(id)?.deaths).toBe(1);
});

test('a session that is closed in order leaves no mark', async () => {
  const { openTab } = browser();
  const first = await openTab('first');
  const id = await addPhoto(first.store, 'a');
  await first.untilMeasuring(id);
  const later = await openTab('later');
  await first.runner.stop();
  await later.untilMeasuring(id);
  expect((await overviewOf(later.store)).jobs.get(id)?.deaths).toBe(0);
  await later.measureAll();
});

test('a worker that dies twice over a photo sets it aside, and only it', async () => {
  const tab = await browser().openTab('tab', 2);
  const [killer, b, c] = [
    await addPhoto(tab.store, 'killer'),
    await addPhoto(tab.store, 'b'),
    await addPhoto(tab.store, 'c'),
  ];
  await tab.untilMeasuring(killer);
  tab.workerOf(killer).die();
  // now it must wait until it can run alone
  await tab.untilMeasuring(b);
  await tab.untilMeasuring(c);
  tab.workerOf(b).answer();
  await until(() => tab.photo(b)?.work === null);
  expect(tab.photo(killer)?.work).toBe('waiting');
  tab.workerOf(c).answer();
  await tab.untilMeasuring(killer);
  expect(tab.working()).toHaveLength(1);
  tab.workerOf(killer).die();
  await until(() => tab.photo(killer)?.work === 'failed');
  expect(tab.photo(killer)?.problem).toEqual({ code: 'worker-died', attempts: 2 });
  expect(tab.photo(b)?.figure).not.toBeNull();
  expect(tab.photo(c)?.figure).not.toBeNull();
});

test('two tabs never measure the same photo: one measures for both, and the other takes over', async () => {
  const { openTab, locks } = browser();
  const [first, second] = [await openTab('first'), await openTab('second')];
  const a = await addPhoto(second.store, 'a');
  await first.untilMeasuring(a);
  expect(second.workers).toEqual([]);
  first.workerOf(a).answer();
  await until(() => second.photo(a)?.figure != null, 'the figure in the tab that asked for it');
  locks.kill('first');
  const b = await addPhoto(second.store, 'b');
  await second.untilMeasuring(b);
  await second.measureAll();
});

test('a tab whose right is taken away stops, and what it still brings is not stored', async () => {
  const { openTab, locks } = browser();
  const tab = await openTab('tab');
  const id = await addPhoto(tab.store, 'a');
  await tab.untilMeasuring(id);
  const worker = tab.working()[0]!;
  locks.steal('measuring');
  await until(() => worker.cancelled.length === 1, 'the cancel message');
  worker.answer();
  await tab.runner.settled(id);
  expect(tab.photo(id)).toMatchObject({ figure: null, work: 'waiting' });
});

test('where no worker can be started, measuring halts, and no photo is blamed', async () => {
  const tab = await browser().openTab('tab', 1, false);
  const ids = [await addPhoto(tab.store, 'a'), await addPhoto(tab.store, 'b')];
  await until(() => tab.halts.length > 0, 'the halt');
  expect(tab.halts).toEqual([{ code: 'no-workers', detail: 'the script could not be loaded' }]);
  await until(() => ids.every((id) => tab.photo(id)?.work === 'waiting'));
  expect(tab.workers).toHaveLength(1);
  const { jobs } = await overviewOf(tab.store);
  expect(ids.map((id) => jobs.get(id)?.deaths)).toEqual([0, 0]);
  tab.runner.resume();
  await until(() => tab.halts.length === 2, 'another try');
});

test('photos whose bytes the browser lost are named', async () => {
  const { openTab, database } = browser();
  const tab = await openTab('tab');
  await stored(tab.store.settings.set('measuring-paused', true));
  const id = await addPhoto(tab.store, 'a');
  await database.transact('write', ['photoBytes'], ({ photoBytes }) => photoBytes.delete(id));
  await stored(tab.store.settings.set('measuring-paused', false));
  await until(() => tab.photo(id)?.work === 'failed');
  expect(tab.photo(id)?.problem).toEqual({ code: 'photo-bytes-missing' });
});

test('a mask that finds no room is left out and the figure stands; nothing more is pressed into a full disk', async () => {
  // room for the photo (10 bytes) and its thumbnail (4), not for the mask (5)
  const tab = await browser({ quotaBytes: 16 }).openTab('tab');
  const id = await addPhoto(tab.store, 'a');
  await tab.measureAll();
  await tab.runner.settled(id);
  expect(tab.photo(id)?.figure).not.toBeNull();
  expect(await tab.store.photos.automaticMask(id)).toBeNull();
  expect(tab.halts).toEqual([{ code: 'storage', problem: { code: 'quota-exceeded' } }]);
});
