import { expect, test } from 'vitest';
import { ObservableValue } from '../../../src/app/session/observable.ts';
import { isLookedAt, Reviewing } from '../../../src/app/session/reviewing.ts';
import type { PhotoSummary } from '../../../src/app/session/session.ts';
import { encodeCorrections } from '../../../src/core/mask/correctionBytes.ts';
import { emptyCorrections } from '../../../src/core/mask/correctionLayer.ts';
import { DEFAULT_CLASSES } from '../../../src/core/trial/defaultClasses.ts';
import { MemoryDatabase } from '../../../src/storage/memoryDatabase.ts';
import { addPhoto, FACTS, newFigure, stored, storeOver, until } from '../../storage/support.ts';

const DATE = '2027-05-17';

/** Three measured photos of a date, the second flagged, and its review. */
async function opened() {
  const store = storeOver(new MemoryDatabase());
  const ids: string[] = [];
  for (const name of ['a.jpg', 'b.jpg', 'c.jpg']) {
    const id = await addPhoto(store, name, { ratingDate: DATE });
    await stored(store.jobs.claim(id, name));
    const flags = name === 'b.jpg' ? (['no-second-kind'] as const) : [];
    await stored(store.jobs.finish(id, name, FACTS, newFigure({ flags: [...flags] })));
    ids.push(id);
  }
  const photos = new ObservableValue<readonly PhotoSummary[]>([]);
  await store.observeOverview(
    (overview) => photos.set(overview.photos),
    (error) => {
      throw error;
    },
  );
  const reviewing = new Reviewing(DATE, {
    store,
    photos,
    settle: () => {},
    mask: async () => null,
    openTrial: async () => ({ trial: new ObservableValue({ state: 'none' as const }) }) as never,
  });
  reviewing.by = 'K';
  await reviewing.load();
  return { store, reviewing, ids };
}

test('the doubted photo comes first; a verdict holds for the figure that was looked at', async () => {
  const { store, reviewing, ids } = await opened();
  const [first] = reviewing.state.get().queue;
  expect(first!.photo.id).toBe(ids[1]);
  expect(first!.place.isDoubted).toBe(true);
  await reviewing.judge(first!, 'accepted');
  expect(reviewing.state.get().queue[0]!.review).toMatchObject({ verdict: 'accepted', by: 'K' });
  expect(reviewing.state.get().queue.map(isLookedAt)).toEqual([true, false, false]);

  // corrected afterwards: it has not been looked at as it is now
  await stored(store.figures.keep(ids[1]!, newFigure({ method: 'corrected' }), 'K', '1'.repeat(64)));
  await until(() => reviewing.state.get().queue[0]!.outdated);
  expect(isLookedAt(reviewing.state.get().queue[0]!)).toBe(false);
  await reviewing.judge(reviewing.state.get().queue[0]!, 'accepted');
  expect(reviewing.state.get().queue[0]!.review!.verdict).toBe('corrected');
  // the verdict before stays in the audit
  const audit = await store.trials.changes(ids[1]!);
  expect(audit).toMatchObject([{ subject: 'reviews', before: { verdict: 'accepted' }, after: 'corrected' }]);
  await reviewing.withdraw(reviewing.state.get().queue[0]!);
  expect(reviewing.state.get().queue[0]!.review).toBeNull();
  reviewing.stop();
});

test('a skipped photo was not looked at', async () => {
  const { reviewing } = await opened();
  await reviewing.judge(reviewing.state.get().queue[2]!, 'skipped');
  expect(reviewing.state.get().queue.map(isLookedAt)).toEqual([false, false, false]);
  reviewing.stop();
});

test('a signed date tells of any later correction, and is amended with a reason', async () => {
  const { store, reviewing, ids } = await opened();
  await reviewing.signOff(null);
  const [signed] = reviewing.state.get().signOffs;
  expect(signed).toMatchObject({
    by: 'K',
    amends: null,
    reason: null,
    lookedAt: 0,
    photoIds: expect.arrayContaining(ids),
  });
  expect(reviewing.state.get().seal).toBe(signed!.sha256);

  const layer = emptyCorrections(FACTS.widthPx, FACTS.heightPx);
  const tile = new Uint8Array(64 * 64);
  tile[0] = 3;
  layer.tiles.set(0, tile);
  await stored(
    store.corrections.keep({
      photoId: ids[0]!,
      revision: 0,
      layer: encodeCorrections(layer).buffer,
      classIds: DEFAULT_CLASSES.map(({ id }) => id),
      forgotten: [],
      sequence: 1,
      gesture: 'brush',
      patch: new ArrayBuffer(8),
      by: 'K',
    }),
  );
  await until(() => reviewing.state.get().seal !== signed!.sha256);
  await reviewing.signOff(null); // not without a reason
  expect(reviewing.state.get().signOffs).toHaveLength(1);
  await reviewing.signOff('a strip of frost was missed');
  const [, amended] = reviewing.state.get().signOffs;
  expect(amended).toMatchObject({ amends: signed!.id, reason: 'a strip of frost was missed' });
  expect(amended!.sha256).toBe(reviewing.state.get().seal);
  reviewing.stop();
});

test('a date with corrections that cannot be read is not signed off', async () => {
  const { store, reviewing, ids } = await opened();
  await stored(
    store.corrections.keep({
      photoId: ids[0]!,
      revision: 0,
      layer: new ArrayBuffer(12),
      classIds: ['ryegrass'],
      forgotten: [],
      sequence: 1,
      gesture: 'brush',
      patch: new ArrayBuffer(8),
      by: 'K',
    }),
  );
  await until(() => reviewing.state.get().unreadable.length > 0);
  expect(reviewing.state.get()).toMatchObject({ seal: null, unreadable: ['a.jpg'] });
  await reviewing.signOff(null);
  expect(reviewing.state.get().signOffs).toEqual([]);
  reviewing.stop();
});
