import { beforeEach, expect, test } from 'vitest';
import type { TeachWorker } from '../../../src/app/measuring/teachWorker.ts';
import { ObservableValue } from '../../../src/app/session/observable.ts';
import type { PhotoSummary } from '../../../src/app/session/session.ts';
import { Teaching } from '../../../src/app/session/teaching.ts';
import { TeachingDesk } from '../../../src/core/cover/teachingDesk.ts';
import { coverModelId } from '../../../src/core/exchange/coverModel.ts';
import { DEFAULT_CLASSES } from '../../../src/core/trial/defaultClasses.ts';
import { MemoryDatabase } from '../../../src/storage/memoryDatabase.ts';
import type { ProjectStore } from '../../../src/storage/projectStore.ts';
import { addPhoto, countingIds, overviewOf, steppingClock, storeOver, until } from '../../storage/support.ts';
import { paintedTurf, strokesOn } from '../../support/paintedTurf.ts';

const classIds = DEFAULT_CLASSES.map(({ id }) => id);
const turf = paintedTurf(160, 120, [0.5, 0.3, 0.2]);
const strokes = strokesOn(turf, classIds, 3);

/** The desk without a worker round it: every photo shows the same turf. */
function deskWorker(): TeachWorker & { readonly reads: string[]; die(): void } {
  const desk = new TeachingDesk();
  const reads: string[] = [];
  let onDeath: (detail: string) => void = () => {};
  return {
    reads,
    die: () => onDeath('out of memory'),
    async read({ bytes: _bytes, ...photo }) {
      reads.push(photo.photoId);
      return desk.put(turf.raster, photo);
    },
    async teach({ photoId, strokes: own, photoIds, classIds: ids }) {
      const problems = desk.repaint(photoId, own) ?? [];
      const lesson = desk.teach(photoIds, ids);
      return { lesson, problems, preview: desk.apply(photoId, 'preview') };
    },
    apply: async (photoId, detail) => desk.apply(photoId, detail),
    agreement: async () => desk.agreement(),
    // a hash is all that is asked of an id: one that follows from the content
    model: async () =>
      desk.model && {
        id: await coverModelId(desk.model, (text) => text.length.toString(16).padStart(64, 'a')),
        model: desk.model,
      },
    terminate() {},
    onDeath(listener) {
      onDeath = listener;
    },
  };
}

let store: ProjectStore;
let ids: string[];
let queued: number;
beforeEach(async () => {
  store = storeOver(new MemoryDatabase());
  queued = 0;
  ids = [];
  for (const name of ['a.jpg', 'b.jpg']) ids.push(await addPhoto(store, name, { ratingDate: '2027-05-17' }));
  ids.push(await addPhoto(store, 'c.jpg', { ratingDate: '2027-07-26' }));
});

async function opened(date: string, idPrefix = 'stroke') {
  const photos = new ObservableValue<readonly PhotoSummary[]>((await overviewOf(store)).photos);
  const worker = deskWorker();
  const teaching = new Teaching(date, {
    store,
    photos,
    startWorker: () => worker,
    now: steppingClock(),
    newId: countingIds(idPrefix),
    settle: () => {},
    onQueued: () => {
      queued += 1;
    },
  });
  await teaching.load();
  return { teaching, worker };
}

const settled = (teaching: Teaching) =>
  until(() => teaching.state.get().whole && !teaching.state.get().behind);

test('strokes teach, the photo and its neighbour follow, and both are measured with the model', async () => {
  const { teaching } = await opened('2027-05-17');
  teaching.open(ids[0]!);
  await until(() => teaching.state.get().ready);
  expect(teaching.state.get().lesson).toEqual({ ok: false, problem: { code: 'no-strokes' } });
  expect(await teaching.measureAll()).toBeNull();
  for (const stroke of strokes) await teaching.paint(stroke);
  await settled(teaching);
  const { lesson, applied, modelId } = teaching.state.get();
  expect(lesson?.ok).toBe(true);
  expect(teaching.state.get().agreement!.agreement).toBeGreaterThan(0.9);
  applied!.coverFraction.forEach((share, c) => {
    expect(Math.abs(share - turf.shares[c]!)).toBeLessThan(0.05);
  });
  await until(() => teaching.state.get().strip.size === 2);

  expect(await teaching.measureAll()).toBe(2);
  expect(queued).toBe(1);
  const { cells, agreement } = teaching.state.get().agreement!;
  expect(await store.teaching.models()).toMatchObject([
    { id: modelId, agreement: { cells, share: agreement } },
  ]);
  const { photos, jobs } = await overviewOf(store);
  expect(photos.map((photo) => photo.modelId)).toEqual([modelId, modelId, null]);
  expect([...jobs.values()].filter(({ state }) => state === 'waiting')).toHaveLength(3);
  const claimed = await store.jobs.claim(ids[1]!, 'claim');
  if (!claimed.written) throw new Error('not written');
  expect(claimed.value).toMatchObject({ settings: { modelId }, taught: { id: modelId } });
  expect(claimed.value!.taught!.model.classes).toEqual(classIds);

  await teaching.adoptStartModel();
  expect((await overviewOf(store)).photos.every((photo) => photo.modelId === null)).toBe(true);
});

test('undo, redo and erase are each stored; a later visit finds what was left', async () => {
  const { teaching } = await opened('2027-05-17');
  teaching.open(ids[0]!);
  await teaching.paint(strokes[0]!);
  await teaching.paint(strokes[3]!);
  await teaching.undo();
  const stored = async () => (await store.teaching.strokes([ids[0]!])).get(ids[0]!)!.map(({ id }) => id);
  expect(await stored()).toEqual(['stroke1']);
  await teaching.redo();
  expect(await stored()).toEqual(['stroke1', 'stroke2']);
  await teaching.erase([teaching.state.get().strokes.get(ids[0]!)![0]!]);
  expect(await stored()).toEqual(['stroke2']);
  expect(teaching.state.get()).toMatchObject({ canUndo: true, canRedo: false });
  await teaching.undo();
  expect(await stored()).toEqual(['stroke1', 'stroke2']);

  const later = await opened('2027-05-17');
  expect(later.teaching.state.get().strokes.get(ids[0]!)).toHaveLength(2);
});

test('strokes of another date teach only where they are taken over, and that is kept', async () => {
  const july = await opened('2027-07-26', 'july');
  july.teaching.open(ids[2]!);
  for (const stroke of strokes) await july.teaching.paint(stroke);

  const { teaching, worker } = await opened('2027-05-17');
  teaching.open(ids[0]!);
  await until(() => teaching.state.get().ready);
  expect(teaching.state.get().lesson?.ok).toBe(false);
  expect(worker.reads).not.toContain(ids[2]);
  await teaching.takeOver(['2027-07-26']);
  await until(() => teaching.state.get().lesson?.ok === true);
  expect((await opened('2027-05-17')).teaching.state.get().takenOver).toEqual(['2027-07-26']);
});

test('a dead worker ends it without losing a stroke', async () => {
  const { teaching, worker } = await opened('2027-05-17');
  teaching.open(ids[0]!);
  for (const stroke of strokes) await teaching.paint(stroke);
  await settled(teaching);
  worker.die();
  expect(teaching.state.get()).toMatchObject({ trouble: 'out of memory', applied: null, modelId: null });
  expect((await store.teaching.strokes([ids[0]!])).get(ids[0]!)).toHaveLength(strokes.length);
});

test('strokes on a photo that was removed meanwhile are not kept', async () => {
  const { teaching } = await opened('2027-05-17');
  teaching.open(ids[0]!);
  await teaching.paint(strokes[0]!);
  const [own] = teaching.state.get().strokes.get(ids[0]!)!;
  await store.photos.remove([ids[0]!], null);
  await store.teaching.replaceStrokes([], [own!]);
  expect((await store.teaching.strokes([ids[0]!])).get(ids[0]!)).toEqual([]);
});
