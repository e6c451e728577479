import { describe, expect, test } from 'vitest';
import { DATABASE_KINDS, newPhoto, overviewOf, stored, storeOver } from './support.ts';

const SPOT = { plot: '204', place: null, ratingDate: '2027-05-17' };
const SIGNED = { by: 'K', reason: 'Another photo was taken in its place' };

describe.each(DATABASE_KINDS)('a day in the field %s', (_kind, openDatabase) => {
  test('the photo that is awaited outlives the page, and nothing awaits it once it is stored', async () => {
    const database = await openDatabase();
    const store = storeOver(database);
    await stored(store.field.goTo('t', SPOT));
    await stored(store.field.awaitPhoto('t', SPOT.ratingDate, { plot: '204', place: 1 }));
    const later = storeOver(database);
    expect(await later.field.progress('t', SPOT.ratingDate)).toMatchObject({
      plot: '204',
      awaited: { plot: '204', place: 1 },
    });
    expect(await later.field.progress('t', '2027-06-21')).toBeNull();
    const taken = await stored(later.field.take('t', SPOT, newPhoto('IMG_1.jpg'), SIGNED));
    expect(taken).toMatchObject({ state: 'added', replaced: [] });
    expect((await later.field.progress('t', SPOT.ratingDate))?.awaited).toBeNull();
    expect((await overviewOf(later)).photos).toMatchObject([
      { name: 'IMG_1.jpg', plot: '204', ratingDate: '2027-05-17', namedBy: 'person', work: 'waiting' },
    ]);
  });

  test('a photo taken again replaces the one before, which stays, belongs nowhere, and can come back', async () => {
    const store = storeOver(await openDatabase(), null, 'a');
    await stored(store.field.take('t', SPOT, newPhoto('IMG_1.jpg'), SIGNED));
    await stored(store.field.take('t', SPOT, newPhoto('IMG_2.jpg'), SIGNED));
    const [first, second] = (await overviewOf(store)).photos;
    expect(first).toMatchObject({ plot: null, ratingDate: null, replaced: SPOT });
    expect(second).toMatchObject({ plot: '204', ratingDate: '2027-05-17', replaced: null });
    expect(Buffer.from((await store.photos.bytes(first!.id))!).toString()).toBe('bytes of IMG_1.jpg');
    expect(await store.photos.changes()).toMatchObject([
      { subjectId: first!.id, field: 'plot', before: '204', after: null, by: 'K' },
      { subjectId: first!.id, field: 'ratingDate', before: '2027-05-17', after: null },
    ]);

    await stored(store.field.restoreEarlier(first!.id, SIGNED));
    const [again, now] = (await overviewOf(store)).photos;
    expect(again).toMatchObject({ plot: '204', ratingDate: '2027-05-17', replaced: null });
    expect(now).toMatchObject({ plot: null, ratingDate: null, replaced: SPOT });
  });

  test('the same bytes at another plot are refused by name, and the photo is still awaited', async () => {
    const store = storeOver(await openDatabase());
    await stored(store.field.take('t', SPOT, newPhoto('IMG_1.jpg'), SIGNED));
    await stored(store.field.awaitPhoto('t', SPOT.ratingDate, { plot: '203', place: 1 }));
    const again = newPhoto('IMG_1.jpg');
    expect(await stored(store.field.take('t', { ...SPOT, plot: '203' }, again, SIGNED))).toEqual({
      state: 'same-photo',
      name: 'IMG_1.jpg',
      plot: '204',
      ratingDate: '2027-05-17',
    });
    expect((await store.field.progress('t', SPOT.ratingDate))?.awaited?.plot).toBe('203');
  });

  test('other places of a plot keep their photos', async () => {
    const store = storeOver(await openDatabase());
    await stored(store.field.take('t', { ...SPOT, place: 1 }, newPhoto('IMG_1.jpg'), SIGNED));
    await stored(store.field.take('t', { ...SPOT, place: 2 }, newPhoto('IMG_2.jpg'), SIGNED));
    expect((await overviewOf(store)).photos.map(({ place }) => place)).toEqual([1, 2]);
  });

  test('a place left out keeps its reason; another reason leaves the first in the audit', async () => {
    const store = storeOver(await openDatabase());
    const skipped = { trialId: 't', ratingDate: '2027-05-17', plot: '204', place: 1, by: 'K' };
    await stored(store.field.skip({ ...skipped, reason: 'standing water' }));
    await stored(store.field.skip({ ...skipped, reason: 'no light left' }));
    expect(await store.field.skipped('t')).toMatchObject([{ plot: '204', reason: 'no light left' }]);
    expect(await store.trials.changes('t')).toMatchObject([
      { before: 'standing water', after: 'no light left', by: 'K' },
    ]);
  });

  test('that a person went on before the re-entry time is kept with what was said and who', async () => {
    const store = storeOver(await openDatabase());
    const told = { words: 'Last application: coded product L-31', by: 'K' };
    const progress = await stored(store.field.acknowledge('t', '2027-05-17', 'A1', told));
    expect(progress.acknowledged).toEqual(['A1']);
    expect(await store.trials.changes('t')).toMatchObject([
      { field: 'applications[A1].reEntry', after: told.words, by: 'K' },
    ]);
  });
});
