import { describe, expect, test } from 'vitest';
import type { Database } from '../../src/storage/database.ts';
import { addPhoto, DATABASE_KINDS, newFigure, overviewOf, stored, storeOver } from './support.ts';

const bytes = (...values: number[]) => new Uint8Array(values).buffer;
const gesture = (photoId: string, revision: number, sequence: number, forgotten: readonly number[] = []) => ({
  photoId,
  revision,
  sequence,
  forgotten,
  layer: bytes(revision + 1),
  classIds: ['ryegrass', 'weedy-grass'],
  gesture: 'brush',
  patch: bytes(sequence),
  by: 'K',
});

describe.each(DATABASE_KINDS)('corrections %s', (_kind, open) => {
  const opened = async () => {
    const database: Database = await open();
    const store = storeOver(database);
    return { store, photoId: await addPhoto(store, 'a.jpg') };
  };

  test('a gesture and its layer are stored together, or neither', async () => {
    const { store, photoId } = await opened();
    expect(await stored(store.corrections.keep(gesture(photoId, 0, 1)))).toEqual({
      state: 'kept',
      revision: 1,
    });
    // made on a state that is no longer the stored one
    expect(await stored(store.corrections.keep(gesture(photoId, 0, 2)))).toEqual({ state: 'stale' });
    const { corrections, gestures } = await store.corrections.read(photoId);
    expect(corrections).toMatchObject({ revision: 1, layer: bytes(1), figureDue: 1 });
    expect(gestures.map(({ sequence }) => sequence)).toEqual([1]);
    expect(await stored(store.corrections.keep(gesture('gone', 0, 1)))).toEqual({ state: 'gone' });
  });

  test('undo marks a gesture, a new one removes what can no longer be done again', async () => {
    const { store, photoId } = await opened();
    await stored(store.corrections.keep(gesture(photoId, 0, 1)));
    await stored(store.corrections.keep(gesture(photoId, 1, 2)));
    const layer = { photoId, revision: 2, layer: bytes(9), classIds: ['ryegrass'] };
    expect(await stored(store.corrections.step(layer, 2, true))).toEqual({ state: 'kept', revision: 3 });
    // the same step twice is no step
    expect(await stored(store.corrections.step({ ...layer, revision: 3 }, 2, true))).toEqual({
      state: 'gone',
    });
    expect((await store.corrections.read(photoId)).corrections!.revision).toBe(3);
    await stored(store.corrections.keep(gesture(photoId, 3, 3, [2])));
    await stored(store.corrections.giveReason(photoId, [1, 3], 'frost'));
    const { gestures } = await store.corrections.read(photoId);
    expect(gestures.map(({ sequence, reason }) => [sequence, reason])).toEqual([
      [1, 'frost'],
      [3, 'frost'],
    ]);
  });

  test('a figure is kept for the state it was made of, and no second one that says the same', async () => {
    const { store, photoId } = await opened();
    await stored(store.corrections.keep(gesture(photoId, 0, 1)));
    const made = {
      photoId,
      figure: newFigure({ method: 'corrected' }),
      correctionsSha256: 'a'.repeat(64),
      by: 'K',
    };
    expect(await store.corrections.figuresDue()).toEqual([photoId]);
    expect(await stored(store.corrections.keepFigure({ ...made, revision: 0 }))).toBe(false);
    expect(await stored(store.corrections.keepFigure({ ...made, revision: 1 }))).toBe(true);
    expect(await stored(store.corrections.keepFigure({ ...made, revision: 1 }))).toBe(true);
    expect(await store.corrections.figuresDue()).toEqual([]);
    expect(await store.figures.all(photoId)).toHaveLength(1);
    // withdrawn, not removed, where no correction is left
    await stored(store.corrections.keepFigure({ ...made, revision: 1, figure: null }));
    expect((await overviewOf(store)).photos[0]!.figures.corrected).toBeUndefined();
    expect(await store.figures.all(photoId)).toHaveLength(1);
  });

  test('a removed photo takes its corrections along', async () => {
    const { store, photoId } = await opened();
    await stored(store.corrections.keep(gesture(photoId, 0, 1)));
    await stored(store.photos.remove([photoId], null));
    expect(await store.corrections.read(photoId)).toEqual({ corrections: null, gestures: [] });
  });
});
