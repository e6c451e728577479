import { describe, expect, test } from 'vitest';
import { MemoryDatabase } from '../../src/storage/memoryDatabase.ts';
import type { Overview } from '../../src/storage/projectOverview.ts';
import { CURRENT_VERSION } from '../../src/storage/schemaVersions.ts';
import { TABLE_NAMES } from '../../src/storage/tables.ts';
import {
  addPhoto,
  DATABASE_KINDS,
  FACTS,
  FRAME,
  newFigure,
  newPhoto,
  overviewOf,
  stored,
  storeOver,
  testChannels,
  until,
} from './support.ts';

describe.each(DATABASE_KINDS)('a project store %s', (_kind, openDatabase) => {
  const openStore = async () => storeOver(await openDatabase());

  test('a photo comes back byte for byte, named, waiting to be measured', async () => {
    const store = await openStore();
    const id = await addPhoto(store, 'a.jpg', { frame: FRAME });
    expect(Buffer.from((await store.photos.bytes(id))!).toString()).toBe('bytes of a.jpg');
    const { photos } = await overviewOf(store);
    expect(photos).toMatchObject([
      {
        id,
        name: 'a.jpg',
        plot: '101',
        ratingDate: '2027-05-17',
        frame: FRAME,
        work: 'waiting',
        figure: null,
      },
    ]);
  });

  test('the same bytes are stored once, and the answer names the photo that is there', async () => {
    const store = await openStore();
    const first = await stored(store.photos.add(newPhoto('a.jpg')));
    const again = await stored(store.photos.add(newPhoto('copy.jpg', { sha256: newPhoto('a.jpg').sha256 })));
    expect(again).toEqual({ state: 'duplicate', photo: first.photo });
    expect((await overviewOf(store)).photos).toHaveLength(1);
  });

  test('photos are listed in the order they were added', async () => {
    const store = await openStore();
    for (const name of ['c.jpg', 'a.jpg', 'b.jpg']) await addPhoto(store, name);
    expect((await overviewOf(store)).photos.map(({ name }) => name)).toEqual(['c.jpg', 'a.jpg', 'b.jpg']);
  });

  test('a change by hand is stored with who named the photo, and kept in the audit with old and new', async () => {
    const database = await openDatabase();
    const store = storeOver(database);
    const id = await addPhoto(store, 'a.jpg');
    expect(await stored(store.photos.change(id, { plot: '102', ratingDate: '2027-05-17' }, 'K'))).toBe(true);
    expect((await overviewOf(store)).photos).toMatchObject([{ plot: '102', namedBy: 'person' }]);
    const audit = await database.transact('read', ['auditEntries'], ({ auditEntries }) => auditEntries.all());
    expect(audit).toMatchObject([
      { by: 'K', subject: 'photos', subjectId: id, field: 'plot', before: '101', after: '102' },
    ]);
  });

  test('a change to what is there already is none', async () => {
    const database = await openDatabase();
    const store = storeOver(database);
    const id = await addPhoto(store, 'a.jpg');
    expect(await stored(store.photos.change(id, { plot: '101' }, null))).toBe(false);
    expect(await database.transact('read', ['auditEntries'], (tables) => tables.auditEntries.all())).toEqual(
      [],
    );
  });

  test('a figure is shown with the facts of the photo, and the job is done', async () => {
    const store = await openStore();
    const id = await addPhoto(store, 'a.jpg', { widthPx: null, heightPx: null });
    await stored(store.jobs.claim(id, 'run 1'));
    const figureId = await stored(store.jobs.finish(id, 'run 1', FACTS, newFigure()));
    expect((await overviewOf(store)).photos).toMatchObject([
      {
        widthPx: 1000,
        heightPx: 750,
        work: null,
        stale: false,
        figure: { id: figureId, photoSha256: newPhoto('a.jpg').sha256, measuredPixels: 1000 },
      },
    ]);
  });

  test('every figure is kept; the newest is shown', async () => {
    const database = await openDatabase();
    const store = storeOver(database);
    const id = await addPhoto(store, 'a.jpg');
    for (const [claim, measuredPixels] of [
      ['run 1', 1000],
      ['run 2', 900],
    ] as const) {
      await stored(store.jobs.enqueue([id]));
      await stored(store.jobs.claim(id, claim));
      await stored(store.jobs.finish(id, claim, FACTS, newFigure({ measuredPixels })));
    }
    expect((await overviewOf(store)).photos[0]?.figure?.measuredPixels).toBe(900);
    const figures = await database.transact('read', ['figures'], (tables) => tables.figures.all());
    expect(figures).toMatchObject([
      { measuredPixels: 1000, current: 0 },
      { measuredPixels: 900, current: 1 },
    ]);
  });

  test('a figure that says the same again is stored once, so that a lost mask can be made again', async () => {
    const database = await openDatabase();
    const store = storeOver(database);
    const id = await addPhoto(store, 'a.jpg');
    const ids: (string | null)[] = [];
    for (const claim of ['run 1', 'run 2']) {
      await stored(store.jobs.enqueue([id]));
      await stored(store.jobs.claim(id, claim));
      ids.push(await stored(store.jobs.finish(id, claim, FACTS, newFigure())));
    }
    expect(ids[1]).toBe(ids[0]);
    expect(await database.transact('read', ['figures'], (tables) => tables.figures.all())).toHaveLength(1);
  });

  test('a changed frame makes the figure stale and asks for another', async () => {
    const store = await openStore();
    const id = await addPhoto(store, 'a.jpg');
    await stored(store.jobs.claim(id, 'run 1'));
    await stored(store.jobs.finish(id, 'run 1', FACTS, newFigure()));
    await stored(store.areas.change([id], (area) => ({ ...area, frame: FRAME, frameBy: 'person' }), null));
    expect((await overviewOf(store)).photos).toMatchObject([{ frame: FRAME, stale: true, work: 'waiting' }]);
    const { settings } = (await stored(store.jobs.claim(id, 'run 2')))!;
    expect(settings.frame).toEqual(FRAME);
    await stored(store.jobs.finish(id, 'run 2', FACTS, newFigure({ settings })));
    expect((await overviewOf(store)).photos).toMatchObject([{ stale: false, work: null }]);
  });

  test("a result under a claim that no longer holds is late: a frame moved meanwhile keeps the frame's own run", async () => {
    const store = await openStore();
    const id = await addPhoto(store, 'a.jpg');
    await stored(store.jobs.claim(id, 'run 1'));
    await stored(store.areas.change([id], (area) => ({ ...area, frame: FRAME, frameBy: 'person' }), null));
    expect(await stored(store.jobs.finish(id, 'run 1', FACTS, newFigure()))).toBeNull();
    expect(await stored(store.jobs.fail(id, 'run 1', { code: 'truncated' }, null))).toBeNull();
    expect(await stored(store.jobs.died(id, 'run 1'))).toBeNull();
    expect((await overviewOf(store)).photos).toMatchObject([{ figure: null, work: 'waiting' }]);
  });

  test('a result of an earlier claim is late also while the job runs under a new one', async () => {
    const store = await openStore();
    const id = await addPhoto(store, 'a.jpg');
    await stored(store.jobs.claim(id, 'run 1'));
    await stored(store.areas.change([id], (area) => ({ ...area, frame: FRAME, frameBy: 'person' }), null));
    await stored(store.jobs.claim(id, 'run 2'));
    expect(await stored(store.jobs.finish(id, 'run 1', FACTS, newFigure()))).toBeNull();
    expect(await stored(store.jobs.died(id, 'run 1'))).toBeNull();
    expect((await overviewOf(store)).jobs.get(id)).toMatchObject({
      state: 'running',
      claim: 'run 2',
      deaths: 0,
    });
  });

  test('a job is claimed once', async () => {
    const store = await openStore();
    const id = await addPhoto(store, 'a.jpg');
    const claims = await Promise.all(['tab 1', 'tab 2'].map((claim) => stored(store.jobs.claim(id, claim))));
    expect(claims.filter((claimed) => claimed !== null)).toHaveLength(1);
  });

  test('the camera names the day only where the file name does not', async () => {
    const store = await openStore();
    const named = await addPhoto(store, 'named.jpg', { ratingDate: '2027-05-17' });
    const unnamed = await addPhoto(store, 'IMG_1.jpg', { plot: null, ratingDate: null, namedBy: null });
    for (const id of [named, unnamed]) {
      await stored(store.jobs.claim(id, `run ${id}`));
      const facts = { ...FACTS, takenAt: '2027-05-18T09:14:20' };
      await stored(store.jobs.finish(id, `run ${id}`, facts, newFigure()));
    }
    expect((await overviewOf(store)).photos).toMatchObject([
      { ratingDate: '2027-05-17', namedBy: 'file-name', takenAt: '2027-05-18T09:14:20' },
      { ratingDate: '2027-05-18', namedBy: 'exif', plot: null },
    ]);
  });

  test('a date that a person took away is not put back by the camera', async () => {
    const store = await openStore();
    const id = await addPhoto(store, 'a.jpg');
    await stored(store.photos.change(id, { ratingDate: null }, 'K'));
    await stored(store.jobs.claim(id, 'run'));
    await stored(store.jobs.finish(id, 'run', { ...FACTS, takenAt: '2027-05-18T09:14:20' }, newFigure()));
    expect((await overviewOf(store)).photos).toMatchObject([{ ratingDate: null, namedBy: 'person' }]);
  });

  test('a photo over which the page died twice is named and set aside, and can be asked for again', async () => {
    const store = await openStore();
    const id = await addPhoto(store, 'a.jpg');
    for (const claim of ['run 1', 'run 2']) {
      expect((await overviewOf(store)).photos[0]?.work).toBe('waiting');
      await stored(store.jobs.claim(id, claim));
      // the page dies; another one looks what was running
      expect(await stored(store.jobs.recover(new Set(), new Set()))).toEqual([id]);
    }
    expect((await overviewOf(store)).photos).toMatchObject([
      { work: 'failed', problem: { code: 'worker-died', attempts: 2 } },
    ]);
    await stored(store.jobs.enqueue([id]));
    const { photos, jobs } = await overviewOf(store);
    expect(photos).toMatchObject([{ work: 'waiting', problem: null }]);
    expect(jobs.get(id)?.deaths).toBe(0);
  });

  test('a run whose page was left in order waits again without a mark', async () => {
    const store = await openStore();
    const [a, b] = [await addPhoto(store, 'a'), await addPhoto(store, 'b')];
    await stored(store.jobs.claim(a, 'left'));
    await stored(store.jobs.claim(b, 'died'));
    await stored(store.jobs.recover(new Set(), new Set(['left'])));
    const { jobs } = await overviewOf(store);
    expect(jobs.get(a)).toMatchObject({ state: 'waiting', deaths: 0, claim: null });
    expect(jobs.get(b)).toMatchObject({ state: 'waiting', deaths: 1, claim: null });
  });

  test('recovery leaves alone what is alive; a page that says goodbye leaves no mark', async () => {
    const store = await openStore();
    const id = await addPhoto(store, 'a.jpg');
    await stored(store.jobs.claim(id, 'alive'));
    expect(await stored(store.jobs.recover(new Set(['alive']), new Set()))).toEqual([]);
    expect(await stored(store.jobs.release([{ photoId: id, claim: 'another' }]))).toEqual([]);
    expect(await stored(store.jobs.release([{ photoId: id, claim: 'alive' }]))).toEqual([id]);
    expect((await overviewOf(store)).jobs.get(id)).toMatchObject({
      state: 'waiting',
      deaths: 0,
      claim: null,
    });
  });

  test('cancelling forgets what waits and runs, and keeps figures and failures', async () => {
    const store = await openStore();
    const ids: string[] = [];
    for (const name of ['done', 'failed', 'running', 'waiting']) ids.push(await addPhoto(store, name));
    const [done, failed, running] = ids as [string, string, string];
    for (const id of [done, failed, running]) await stored(store.jobs.claim(id, id));
    await stored(store.jobs.finish(done, done, FACTS, newFigure()));
    await stored(store.jobs.fail(failed, failed, { code: 'truncated' }, null));
    await stored(store.jobs.cancelAll());
    const { photos } = await overviewOf(store);
    expect(photos.map(({ work }) => work)).toEqual([null, 'failed', null, null]);
    expect(photos.map(({ figure }) => figure !== null)).toEqual([true, false, false, false]);
    expect(await stored(store.jobs.finish(running, running, FACTS, newFigure()))).toBeNull();
  });

  test('while measuring is paused, what waits is shown as paused', async () => {
    const store = await openStore();
    await addPhoto(store, 'a.jpg');
    await stored(store.settings.set('measuring-paused', true));
    expect(await overviewOf(store)).toMatchObject({ paused: true, photos: [{ work: 'paused' }] });
  });

  test('photos asked for while others wait join their batch; later ones begin a new one', async () => {
    const store = await openStore();
    const [a, b] = [await addPhoto(store, 'a'), await addPhoto(store, 'b')];
    for (const id of [a, b]) {
      await stored(store.jobs.claim(id, id));
      await stored(store.jobs.finish(id, id, FACTS, newFigure()));
    }
    const c = await addPhoto(store, 'c');
    const { jobs } = await overviewOf(store);
    expect(jobs.get(b)?.batch).toBe(jobs.get(a)?.batch);
    expect(jobs.get(c)!.batch > jobs.get(a)!.batch).toBe(true);
  });

  test('a removed photo leaves nothing but its audit entry', async () => {
    const database = await openDatabase();
    const store = storeOver(database);
    const id = await addPhoto(store, 'a.jpg');
    await stored(store.jobs.claim(id, 'run'));
    const figureId = (await stored(store.jobs.finish(id, 'run', FACTS, newFigure())))!;
    const buffer = new ArrayBuffer(3);
    const size = { widthPx: 10, heightPx: 10 };
    await stored(store.photos.saveThumbnail({ photoId: id, ...size, jpeg: buffer }));
    const encoding = 'label-runs deflate-raw' as const;
    await stored(store.photos.saveAutomaticMask({ photoId: id, figureId, ...size, encoding, bytes: buffer }));
    const at = '2027-05-17T10:00:00.000Z';
    await database.transact('write', ['correctionPatches', 'pointSets', 'calls'], async (tables) => {
      const patch = { photoId: id, sequence: 1, gesture: 'brush', patch: buffer, undone: false };
      await tables.correctionPatches.put({ ...patch, by: null, at, reason: null });
      await tables.pointSets.put({
        id: 's',
        planId: 'plan',
        photoId: id,
        set: { seed: 1, points: [] },
        createdAt: at,
        by: null,
      });
      const call = { id: 'c', pointSetId: 's', pointId: 1, observer: 'K', classId: null };
      await tables.calls.put({ ...call, at: [0, 0], calledAt: at, gapRule: { kind: 'every-pixel' } });
    });
    await stored(store.photos.remove([id], 'K'));
    const left = await database.transact('read', TABLE_NAMES, async (tables) => {
      const counts = await Promise.all(
        TABLE_NAMES.map(async (name) => [name, (await tables[name].all()).length] as const),
      );
      return counts.filter(([, count]) => count > 0);
    });
    expect(left).toEqual([['auditEntries', 1]]);
    // what comes late for a removed photo is not stored
    expect(await stored(store.photos.saveThumbnail({ photoId: id, ...size, jpeg: buffer }))).toBe(false);
  });

  test('a mask belongs to a figure: that of an earlier figure is not given out', async () => {
    const store = await openStore();
    const id = await addPhoto(store, 'a.jpg');
    const measure = async (claim: string, measuredPixels: number) => {
      await stored(store.jobs.enqueue([id]));
      await stored(store.jobs.claim(id, claim));
      return (await stored(store.jobs.finish(id, claim, FACTS, newFigure({ measuredPixels }))))!;
    };
    const figureId = await measure('run 1', 1000);
    const mask = {
      photoId: id,
      figureId,
      widthPx: 2,
      heightPx: 1,
      encoding: 'label-runs deflate-raw' as const,
    };
    await stored(store.photos.saveAutomaticMask({ ...mask, bytes: new ArrayBuffer(4) }));
    expect(await store.photos.automaticMask(id)).toMatchObject(mask);
    await measure('run 2', 900);
    expect(await store.photos.automaticMask(id)).toBeNull();
  });

  test('what goes wrong inside a write leaves nothing of it', async () => {
    const database = await openDatabase();
    const store = storeOver(database);
    const writing = database.transact('write', ['settings', 'photos'], async ({ settings, photos }) => {
      await settings.put({ name: 'measuring-paused', value: true });
      await photos.put({ id: 'x' });
      throw new Error('half way');
    });
    await expect(writing).rejects.toThrow('half way');
    expect(await store.settings.get('measuring-paused')).toBeNull();
  });

  test('a closed database says so instead of losing a write', async () => {
    const store = await openStore();
    store.close();
    expect(await store.photos.add(newPhoto('a.jpg'))).toEqual({
      written: false,
      problem: { code: 'database-closed' },
    });
  });

  test('a record that cannot be read is passed over, named, kept and exported', async () => {
    const database = await openDatabase();
    const store = storeOver(database);
    const id = await addPhoto(store, 'good.jpg');
    const odd = { id: 'odd', name: 'odd.jpg', sha256: 'not a hash', addedAt: 'yesterday' };
    await database.transact('write', ['photos'], ({ photos }) => photos.put(odd));
    expect((await overviewOf(store)).photos.map((photo) => photo.id)).toEqual([id]);
    expect(store.unreadable()).toMatchObject([{ table: 'photos', key: 'odd' }]);
    expect(store.unreadable()[0]?.reason).toMatch(/^(trialId|sha256)/);
    const kept = await database.transact('read', ['photos'], ({ photos }) => photos.get('odd'));
    expect(kept).toEqual(odd);
    expect(JSON.parse(await (await store.exportRaw()).text()).tables.photos).toContainEqual(odd);
  });

  test('figures of several methods stand side by side; the newest of each is shown and none is lost', async () => {
    const store = await openStore();
    const id = await addPhoto(store, 'a.jpg');
    await stored(store.jobs.claim(id, 'run'));
    await stored(store.jobs.finish(id, 'run', FACTS, newFigure()));
    const corrected = newFigure({ method: 'corrected' });
    await stored(store.figures.keep(id, corrected, 'K', '0'.repeat(64)));
    const last = await stored(store.figures.keep(id, corrected, 'K', '1'.repeat(64)));
    const [photo] = (await overviewOf(store)).photos;
    expect(photo!.figure?.method).toBe('automatic');
    expect(photo!.figures.corrected).toMatchObject({ id: last, correctionsSha256: '1'.repeat(64) });
    expect((await store.figures.all(id)).map(({ method, current }) => [method, current])).toEqual([
      ['automatic', 1],
      ['corrected', 0],
      ['corrected', 1],
    ]);
    expect(await stored(store.figures.keep('gone', corrected, null))).toBeNull();
  });

  test('the raw export holds every table, and bytes as base64', async () => {
    const store = await openStore();
    const id = await addPhoto(store, 'a.jpg');
    const raw = JSON.parse(await (await store.exportRaw()).text());
    expect(raw).toMatchObject({ type: 'raw-records', version: 1, databaseVersion: CURRENT_VERSION });
    expect(Object.keys(raw.tables).sort()).toEqual([...TABLE_NAMES].sort());
    const base64 = Buffer.from('bytes of a.jpg').toString('base64');
    expect(raw.tables.photoBytes).toEqual([{ photoId: id, bytes: { base64 } }]);
  });

  test('a change of very many photos at once reaches the list whole', async () => {
    const store = await openStore();
    const ids: string[] = [];
    for (let i = 0; i < 250; i += 1) ids.push(await addPhoto(store, `${i}.jpg`));
    await stored(store.jobs.cancelAll());
    const seen: Overview[] = [];
    const stop = await store.observeOverview(
      (overview) => void seen.push(overview),
      (error) => {
        throw error;
      },
    );
    await stored(store.jobs.enqueue(ids));
    await until(() => seen.at(-1)?.photos.every(({ work }) => work === 'waiting') === true, 'all waiting');
    expect(seen.at(-1)?.photos.map(({ id }) => id)).toEqual(ids);
    stop();
  });

  test('the list follows every change of this tab and of another one over the same database', async () => {
    const database = await openDatabase();
    const channel = testChannels();
    const [here, there] = [storeOver(database, channel(), 'here'), storeOver(database, channel(), 'there')];
    const seen: Overview[] = [];
    const fail = (error: unknown) => {
      throw error;
    };
    const stop = await here.observeOverview((overview) => void seen.push(overview), fail);
    const a = await addPhoto(here, 'a.jpg');
    const b = await addPhoto(there, 'b.jpg');
    await until(() => seen.at(-1)?.photos.length === 2, 'both photos listed');
    const before = seen.at(-1)!.photos;
    await stored(there.photos.change(b, { plot: '303' }, null));
    await until(() => seen.at(-1)?.photos[1]?.plot === '303', 'the change of the other tab');
    // rows that did not change are the same objects, so that a list need not draw them again
    expect(seen.at(-1)?.photos[0]).toBe(before[0]);
    await stored(there.photos.remove([a], null));
    await until(() => seen.at(-1)?.photos.length === 1, 'the removal');
    await stored(there.settings.set('measuring-paused', true));
    await until(() => seen.at(-1)?.photos[0]?.work === 'paused', 'the pause');
    stop();
    const count = seen.length;
    await addPhoto(there, 'c.jpg');
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(seen).toHaveLength(count);
  });
});

test('a full disk is named, and the photo that did not fit is not half there', async () => {
  const store = storeOver(new MemoryDatabase({ quotaBytes: 20 }));
  await addPhoto(store, 'a.jpg');
  const second = await store.photos.add(newPhoto('b.jpg'));
  expect(second).toEqual({ written: false, problem: { code: 'quota-exceeded' } });
  expect((await overviewOf(store)).photos.map(({ name }) => name)).toEqual(['a.jpg']);
});
