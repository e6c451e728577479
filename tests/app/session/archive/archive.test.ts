import { describe, expect, it } from 'vitest';
import { sha256Of } from '../../../../src/app/session/sha256Of.ts';
import { NEWEST_DATABASE } from '../../../../src/core/exchange/archiveManifest.ts';
import type { ProjectStore } from '../../../../src/storage/projectStore.ts';
import { CURRENT_VERSION } from '../../../../src/storage/schemaVersions.ts';
import { addPhoto, FACTS, newFigure, newPhoto, stored } from '../../../storage/support.ts';
import { archiveOf, filesOf, inspected, newStore, opened, takeIn } from '../../../support/archives.ts';

/** Adds a photo with the true hash of its bytes, measured. */
async function addMeasured(store: ProjectStore, name: string, facts = {}): Promise<string> {
  const bytes = newPhoto(name).bytes;
  const id = await addPhoto(store, name, { sha256: await sha256Of(new Uint8Array(bytes)), ...facts });
  await stored(store.jobs.claim(id, 'run'));
  const figureId = await stored(store.jobs.finish(id, 'run', FACTS, newFigure()));
  await stored(
    store.photos.saveThumbnail({ photoId: id, widthPx: 4, heightPx: 3, jpeg: new Uint8Array([1, 2]).buffer }),
  );
  await stored(
    store.photos.saveAutomaticMask({
      photoId: id,
      figureId: figureId!,
      widthPx: 1000,
      heightPx: 750,
      encoding: 'label-runs deflate-raw',
      bytes: new Uint8Array([7, 8, 9]).buffer,
    }),
  );
  return id;
}

describe('an archive', () => {
  it('opens into the same state, and writes the same files again', async () => {
    const [a, b] = [newStore('a'), newStore('b')];
    await addMeasured(a, '2027-05-17_101.jpg');
    await addMeasured(a, '2027-06-14_102.jpg', { ratingDate: '2027-06-14', plot: '102' });
    await stored(a.photos.change('a1', { plot: '103' }, 'K'));
    const first = await archiveOf(a);
    const { summary } = (await inspected(b, first.file)).plan;
    expect(summary.photos).toMatchObject({ new: 2, same: 0, conflicts: 0 });
    expect(await takeIn(b, first.file)).toEqual({ ok: true, newPhotos: 2, damaged: [] });
    expect(await filesOf((await archiveOf(b)).file)).toEqual(await filesOf(first.file));
    expect(new Uint8Array((await b.photos.bytes('a1'))!)).toEqual(
      new Uint8Array((await a.photos.bytes('a1'))!),
    );
    const again = await inspected(b, first.file);
    expect(again.plan.changes(new Map())).toMatchObject({ puts: [], deletes: [] });
    expect(again.plan.summary.photos).toMatchObject({ new: 0, same: 2 });
    expect(await takeIn(b, first.file)).toEqual({ ok: true, newPhotos: 0, damaged: [] });
    expect(await filesOf((await archiveOf(b)).file)).toEqual(await filesOf(first.file));
  });

  it('is of a database version that both sides of the program know', () => {
    expect(NEWEST_DATABASE).toBe(CURRENT_VERSION);
  });

  it('of one rating date opens alone and completes the others', async () => {
    const [a, b] = [newStore('a'), newStore('b')];
    await addMeasured(a, '2027-05-17_101.jpg');
    await addMeasured(a, '2027-06-14_101.jpg', { ratingDate: '2027-06-14' });
    const may = (await archiveOf(a, { trialId: null, ratingDate: '2027-05-17' })).file;
    const june = (await archiveOf(a, { trialId: null, ratingDate: '2027-06-14' })).file;
    expect((await opened(may)).manifest).toMatchObject({
      part: { ratingDate: '2027-05-17' },
      ratingDates: ['2027-05-17', '2027-06-14'],
    });
    for (const part of [june, may]) await takeIn(b, part);
    expect(await filesOf((await archiveOf(b)).file)).toEqual(await filesOf((await archiveOf(a)).file));
  });
});
