import { beforeEach, describe, expect, test } from 'vitest';
import type { CorrectWorker } from '../../../src/app/measuring/correctWorker.ts';
import { CorrectedFigures } from '../../../src/app/session/correctedFigures.ts';
import { Correcting } from '../../../src/app/session/correcting.ts';
import { ObservableValue } from '../../../src/app/session/observable.ts';
import type { PhotoSummary } from '../../../src/app/session/session.ts';
import { coverOfMask } from '../../../src/core/cover/coverOfMask.ts';
import { collectRuns } from '../../../src/core/geometry/pixelRuns.ts';
import { photoPoint } from '../../../src/core/geometry/points.ts';
import { areaOfMask } from '../../../src/core/mask/areaOfMask.ts';
import { connectedPatch } from '../../../src/core/mask/connectedPatch.ts';
import { encodeCorrections } from '../../../src/core/mask/correctionBytes.ts';
import { correctionAt } from '../../../src/core/mask/correctionLayer.ts';
import { majorityRuns } from '../../../src/core/mask/smoothOutline.ts';
import type { LabelMask } from '../../../src/core/raster/labelMask.ts';
import { DEFAULT_CLASSES } from '../../../src/core/trial/defaultClasses.ts';
import type { Database } from '../../../src/storage/database.ts';
import { MemoryDatabase } from '../../../src/storage/memoryDatabase.ts';
import type { ProjectStore } from '../../../src/storage/projectStore.ts';
import {
  addPhoto,
  countingIds,
  FACTS,
  newFigure,
  overviewOf,
  steppingClock,
  stored,
  storeOver,
  testChannels,
  until,
} from '../../storage/support.ts';

const SIZE = { widthPx: 100, heightPx: 80 };
const [RYEGRASS, WEED, GROUND] = [1, 2, 3];

/** Ryegrass left of a column, weed right of it. */
function splitMask(column: number, measuredFrom = 0): LabelMask {
  const labels = new Uint8Array(SIZE.widthPx * SIZE.heightPx);
  for (let i = 0; i < labels.length; i += 1) {
    const x = i % SIZE.widthPx;
    labels[i] = x < measuredFrom ? 0 : x < column ? RYEGRASS : WEED;
  }
  return { ...SIZE, labels };
}

const square = (left: number, top: number, side: number) =>
  collectRuns((visit) => {
    for (let y = top; y < top + side; y += 1) visit(y, left, left + side);
  });

/** The worker's work without a worker. */
const here = (): CorrectWorker => ({
  read: async () => ({ ok: true }),
  patch: async (mask, seed) => connectedPatch(mask, seed),
  majority: async (mask, classCount, region, radiusPx) => majorityRuns(mask, classCount, region, radiusPx),
  likeness: async () => null,
  terminate() {},
  onDeath() {},
});

let database: Database;
let channels: ReturnType<typeof testChannels>;
let photoId: string;

/** A tab of a browser whose photo has the mask given. */
async function openTab(mask: () => LabelMask) {
  const store = storeOver(database, channels(), `tab${Math.random()}`);
  const photos = new ObservableValue<readonly PhotoSummary[]>((await overviewOf(store)).photos);
  await store.observeOverview(
    (overview) => photos.set(overview.photos),
    (error) => {
      throw error;
    },
  );
  const context = { store, photos, settle: () => {}, mask: async () => mask() };
  return {
    store,
    photos,
    context,
    async correct() {
      const correcting = new Correcting(photoId, {
        ...context,
        startWorker: here,
        now: steppingClock(),
        newId: countingIds(),
      });
      correcting.by = 'K';
      await correcting.load();
      return correcting;
    },
  };
}

/** Measures the photo: a figure of the mask stands in the store. */
async function measure(store: ProjectStore, mask: LabelMask, classes = DEFAULT_CLASSES): Promise<void> {
  await stored(store.jobs.enqueue([photoId]));
  const claimed = (await stored(store.jobs.claim(photoId, 'run')))!;
  const settings = { ...claimed.settings, classes };
  const cover = coverOfMask(mask, areaOfMask(mask, settings), classes.length)!;
  const figure = newFigure({
    settings,
    cover: cover.map((share, i) => ({ classId: classes[i]!.id, ...share })),
    measuredPixels: mask.labels.filter((label) => label > 0).length,
  });
  await stored(store.jobs.finish(photoId, 'run', { ...FACTS, ...SIZE }, figure));
}

const bytesOf = (correcting: Correcting) => [...encodeCorrections(correcting.mask!.corrections)];
const correctedFigure = async (store: ProjectStore) =>
  (await overviewOf(store)).photos.find(({ id }) => id === photoId)!.figures.corrected;

beforeEach(async () => {
  database = new MemoryDatabase();
  channels = testChannels();
  const store = storeOver(database);
  photoId = await addPhoto(store, 'a.jpg', SIZE);
  await measure(store, splitMask(50));
});

test('a gesture is painted at once, stored as one patch, and its cover is right', async () => {
  const tab = await openTab(() => splitMask(50));
  const correcting = await tab.correct();
  const boxes: unknown[] = [];
  correcting.onPainted((box) => boxes.push(box));
  const stroke = correcting.begin({ label: GROUND })!;
  stroke.moveTo({ at: photoPoint(20.5, 20.5), radiusPx: 3 });
  expect(boxes).toEqual([{ left: 17, top: 17, right: 24, bottom: 24 }]);
  stroke.end();
  expect(correcting.state.get().unstored).toBe(1);
  await correcting.settled();

  const { covers, unstored, gestures } = correcting.state.get();
  const recount = coverOfMask(
    correcting.mask!.effective,
    areaOfMask(correcting.mask!.automatic, { frame: null, ignored: [], neutral: null }),
    3,
  )!;
  expect(covers!.corrected).toEqual(recount.map(({ coverFraction }) => coverFraction));
  expect(covers!.automatic).toEqual([0.5, 0.5, 0]);
  expect(unstored).toBe(0);
  expect(gestures).toMatchObject([{ sequence: 1, gesture: 'brush', by: 'K' }]);
  const kept = await tab.store.corrections.read(photoId);
  expect(kept.corrections).toMatchObject({ revision: 1, classIds: DEFAULT_CLASSES.map(({ id }) => id) });
  expect(kept.gestures).toHaveLength(1);
  await correcting.stop();
});

test('the corrected figure stands beside the automatic one and names the corrections', async () => {
  const tab = await openTab(() => splitMask(50));
  const correcting = await tab.correct();
  correcting.fill(square(0, 0, 40), { label: GROUND }, 'outline');
  await correcting.settled();
  const corrected = (await correctedFigure(tab.store))!;
  // 40 x 40 of 100 x 80 pixels went from ryegrass to ground
  expect(corrected.cover.map(({ pixels }) => pixels)).toEqual([2400, 4000, 1600]);
  expect(corrected.correctionsSha256).toMatch(/^[0-9a-f]{64}$/);
  const { figure } = (await overviewOf(tab.store)).photos[0]!;
  expect(figure!.cover.map(({ pixels }) => pixels)).toEqual([4000, 4000, 0]);

  correcting.undo();
  await correcting.settled();
  expect(await correctedFigure(tab.store)).toBeUndefined();
  expect(await tab.store.corrections.figuresDue()).toEqual([]);
  await correcting.stop();
});

test('undo and redo go on after everything was closed and opened again', async () => {
  const first = await (await openTab(() => splitMask(50))).correct();
  const states = [bytesOf(first)];
  for (const [i, label] of [GROUND, RYEGRASS, WEED].entries()) {
    first.fill(square(10 * i, 10, 25), { label }, 'outline');
    states.push(bytesOf(first));
  }
  first.undo();
  await first.stop();

  const again = await (await openTab(() => splitMask(50))).correct();
  expect(bytesOf(again)).toEqual(states[2]);
  again.redo();
  expect(bytesOf(again)).toEqual(states[3]);
  for (const state of states.slice(0, 3).reverse()) {
    again.undo();
    expect(bytesOf(again)).toEqual(state);
  }
  expect(again.state.get()).toMatchObject({ canUndo: false, canRedo: true });
  expect(again.state.get().covers!.corrected).toEqual([0.5, 0.5, 0]);
  // a new gesture ends what could be done again
  again.fill(square(60, 60, 5), { label: GROUND }, 'outline');
  expect(again.state.get().canRedo).toBe(false);
  await again.stop();
  const store = storeOver(database);
  expect((await store.corrections.read(photoId)).gestures).toHaveLength(1);
});

describe('two tabs on one photo', () => {
  test('notice each other', async () => {
    const one = await (await openTab(() => splitMask(50))).correct();
    const two = await (await openTab(() => splitMask(50))).correct();
    one.fill(square(0, 0, 10), { label: GROUND }, 'outline');
    await one.settled();
    await until(() => two.state.get().notice?.code === 'changed-in-other-tab');
    expect(bytesOf(two)).toEqual(bytesOf(one));
    await one.stop();
    await two.stop();
  });

  test('a gesture on a state that another tab has changed is refused, and what is stored is shown', async () => {
    const one = await (await openTab(() => splitMask(50))).correct();
    const two = await (await openTab(() => splitMask(50))).correct();
    // both before either is stored; the first to end a gesture is stored first
    two.fill(square(50, 0, 20), { label: RYEGRASS }, 'outline');
    two.fill(square(0, 0, 20), { label: WEED }, 'outline');
    one.fill(square(0, 0, 10), { label: GROUND }, 'outline');
    one.fill(square(0, 0, 15), { label: GROUND }, 'outline');
    await Promise.all([one.settled(), two.settled()]);
    await until(() => one.state.get().notice !== null && two.state.get().unstored === 0);
    expect(one.state.get()).toMatchObject({ notice: { code: 'other-tab-was-first' }, unstored: 0 });
    expect(bytesOf(one)).toEqual(bytesOf(two));
    // and goes on from there
    one.fill(square(30, 30, 5), { label: GROUND }, 'outline');
    await one.settled();
    expect((await storeOver(database).corrections.read(photoId)).corrections!.revision).toBe(3);
    await one.stop();
    await two.stop();
  });
});

test('a write that fails takes the screen back to what is stored', async () => {
  const tab = await openTab(() => splitMask(50));
  const correcting = await tab.correct();
  correcting.fill(square(0, 0, 10), { label: GROUND }, 'outline');
  await correcting.settled();
  const before = bytesOf(correcting);
  const { keep } = tab.store.corrections;
  tab.store.corrections.keep = async () => ({ written: false, problem: { code: 'quota-exceeded' } });
  correcting.fill(square(20, 20, 10), { label: WEED }, 'outline');
  await correcting.settled();
  await until(() => correcting.state.get().notice?.code === 'not-stored');
  expect(bytesOf(correcting)).toEqual(before);
  tab.store.corrections.keep = keep;
  expect(correcting.fill(square(20, 20, 10), { label: WEED }, 'outline')).toBe(true);
  await correcting.settled();
  expect((await tab.store.corrections.read(photoId)).gestures).toHaveLength(2);
  await correcting.stop();
});

test('moved frame: corrections keep their place, and the corrected figure is made anew', async () => {
  let mask = splitMask(50);
  const tab = await openTab(() => mask);
  const correcting = await tab.correct();
  correcting.fill(square(20, 0, 20), { label: GROUND }, 'outline');
  await correcting.settled();

  // the left 30 columns are no longer measured
  mask = splitMask(50, 30);
  await measure(tab.store, mask);
  await until(() => correcting.mask?.automatic === mask);
  expect(correctionAt(correcting.mask!.corrections, 25, 5)).toBe(GROUND); // waits
  expect(correcting.mask!.effective.labels[5 * 100 + 25]).toBe(0);
  expect(correcting.mask!.effective.labels[5 * 100 + 35]).toBe(GROUND);
  await correcting.settled();
  expect((await correctedFigure(tab.store))!.cover.map(({ pixels }) => pixels)).toEqual([1400, 4000, 200]);
  await correcting.stop();

  // and without a screen on which it is corrected
  mask = splitMask(50);
  const keeper = new CorrectedFigures(tab.context);
  await keeper.start();
  await measure(tab.store, mask);
  await until(async () => (await correctedFigure(tab.store))!.cover[2]!.pixels === 400);
  keeper.stop();
});

test('a page that died before the figure was made leaves it to the next one', async () => {
  const tab = await openTab(() => splitMask(50));
  const correcting = await tab.correct();
  correcting.fill(square(0, 0, 10), { label: WEED }, 'outline');
  await until(() => correcting.state.get().unstored === 0);
  expect(await correctedFigure(tab.store)).toBeUndefined();
  const next = await openTab(() => splitMask(50));
  const keeper = new CorrectedFigures(next.context);
  await keeper.start();
  await keeper.settled();
  expect((await correctedFigure(next.store))!.cover[1]!.pixels).toBe(4100);
  keeper.stop();
  await correcting.stop();
});

test('a class list in another order keeps corrections with their classes', async () => {
  const tab = await openTab(() => splitMask(50));
  const correcting = await tab.correct();
  correcting.fill(square(0, 0, 10), { label: GROUND }, 'outline');
  await correcting.stop();
  const [ryegrass, weed, ground] = DEFAULT_CLASSES;
  await measure(tab.store, splitMask(50), [ryegrass!, ground!, weed!]);

  const again = await tab.correct();
  await until(() => again.state.get().classes[1]?.id === 'bare-ground');
  expect(correctionAt(again.mask!.corrections, 5, 5)).toBe(2);
  again.fill(square(0, 0, 5), { label: 3 }, 'outline'); // weed
  again.undo();
  again.undo();
  expect(again.mask!.corrections.tiles.size).toBe(0);
  again.redo();
  again.redo();
  await again.stop();
  const { corrections, gestures } = await tab.store.corrections.read(photoId);
  expect(corrections!.classIds).toEqual(DEFAULT_CLASSES.map(({ id }) => id));
  expect(gestures.map(({ undone }) => undone)).toEqual([false, false]);
});

test('regions: a patch of a class, smoothing, and one class to another everywhere', async () => {
  const correcting = await (await openTab(() => splitMask(50))).correct();
  correcting.fill(square(10, 10, 3), { label: WEED }, 'outline');
  expect(await correcting.smooth(square(0, 0, 40), 6)).toBe(true); // the speck goes
  expect(correcting.state.get().covers!.corrected).toEqual([0.5, 0.5, 0]);
  expect(correcting.changeEverywhere(WEED, GROUND)).toBe(true);
  expect(correcting.state.get().covers!.corrected).toEqual([0.5, 0, 0.5]);
  expect(await correcting.fillPatch(photoPoint(70, 5), { label: RYEGRASS })).toBe(true);
  expect(correcting.state.get().covers!.corrected).toEqual([1, 0, 0]);
  await correcting.settled();
  const { summary, gestures } = correcting.state.get();
  expect(summary!.pairs).toMatchObject([{ from: WEED, to: RYEGRASS, pixels: 4000 }]);
  expect(gestures.map(({ gesture }) => gesture)).toEqual(['patch', 'change-class', 'smooth', 'outline']);
  // each class that was corrected, and no other
  await correcting.teach();
  const taught = (await storeOver(database).teaching.strokes([photoId])).get(photoId)!;
  expect(taught.map(({ classId }) => classId)).toEqual(Array(60).fill('ryegrass'));
  await correcting.noteTreatmentsShown('trial', '2027-05-17');
  expect(await storeOver(database).trials.changes('trial')).toMatchObject([
    { by: 'K', field: 'treatments shown while correcting', after: '2027-05-17' },
  ]);
  await correcting.giveReason([4, 3], 'frost');
  expect(correcting.state.get().gestures.map(({ reason }) => reason)).toEqual(['frost', 'frost', null, null]);
  await correcting.stop();
});
