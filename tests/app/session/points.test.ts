import { beforeEach, describe, expect, test } from 'vitest';
import { ObservableValue } from '../../../src/app/session/observable.ts';
import { Points } from '../../../src/app/session/points.ts';
import type { PhotoSummary } from '../../../src/app/session/session.ts';
import type { PartContext } from '../../../src/app/session/sessionPart.ts';
import type { TrialState } from '../../../src/app/session/trialState.ts';
import { adjustCover } from '../../../src/core/cover/adjustedCover.ts';
import { maskErrorsOf } from '../../../src/core/cover/maskErrors.ts';
import { readReferenceCounts, writeReferenceCounts } from '../../../src/core/exchange/referenceCounts.ts';
import { photoPoint, plotPoint } from '../../../src/core/geometry/points.ts';
import {
  countsOf,
  estimatePhotoCover,
  isCounted,
  observersOf,
  verdictPairs,
} from '../../../src/core/point-grid/countedPhoto.ts';
import { observerAgreement } from '../../../src/core/point-grid/observerAgreement.ts';
import type { PointSet } from '../../../src/core/point-grid/pointSet.ts';
import type { LabelMask } from '../../../src/core/raster/labelMask.ts';
import type { CoverClass } from '../../../src/core/trial/coverClass.ts';
import { DEFAULT_CLASSES } from '../../../src/core/trial/defaultClasses.ts';
import { MemoryDatabase } from '../../../src/storage/memoryDatabase.ts';
import type { ProjectStore } from '../../../src/storage/projectStore.ts';
import type { PointCallRecord } from '../../../src/storage/records/pointRecords.ts';
import { samplePlan } from '../../core/trial/samplePlan.ts';
import {
  addPhoto,
  countingIds,
  FACTS,
  newFigure,
  overviewOf,
  steppingClock,
  stored,
  storeOver,
} from '../../storage/support.ts';
import { referenceValues } from '../../support/referenceValues.ts';

const DATE = '2027-05-17';
const SIZE = { widthPx: 200, heightPx: 100 };

let database: MemoryDatabase;
let store: ProjectStore;
let trial: ObservableValue<TrialState>;
let photos: ObservableValue<readonly PhotoSummary[]>;
let masks: Map<string, LabelMask>;
let points: Points;

beforeEach(async () => {
  database = new MemoryDatabase();
  store = storeOver(database);
  trial = new ObservableValue<TrialState>({ state: 'none' });
  photos = new ObservableValue<readonly PhotoSummary[]>([]);
  masks = new Map();
  const clock = steppingClock();
  const context = {
    store,
    photos,
    parts: { now: clock, newId: countingIds('made') },
    openTrial: async () => ({ trial }),
    mask: async (id: string) => masks.get(id) ?? null,
    settle: () => {},
    goOn: () => {},
    fail: (error: unknown) => {
      throw error;
    },
    onClose: () => {},
  } as unknown as PartContext;
  points = new Points(context);
  await points.load();
});

function openTrial(classes: readonly CoverClass[] = DEFAULT_CLASSES): void {
  const plan = samplePlan();
  trial.set({
    state: 'open',
    id: 'trial',
    plan: { ...plan, trial: { ...plan.trial, classes: classes.map((one) => ({ ...one })) } },
    photoRules: {} as never,
    scores: [],
    weather: [],
  });
}

const follow = async () => photos.set((await overviewOf(store)).photos);

/** A measured photo, its mask in upright bands of the classes by share. */
async function measured(
  name: string,
  plot: string,
  shares: readonly number[] = [0.5, 0.3, 0.2],
  classes: readonly CoverClass[] = DEFAULT_CLASSES,
): Promise<string> {
  const id = await addPhoto(store, name, { plot, ratingDate: DATE, ...SIZE });
  await stored(store.jobs.claim(id, 'c'));
  const facts = { ...FACTS, ...SIZE };
  const settings = { classes, frame: null, ignored: [], neutral: null };
  const cover = classes.map(({ id: classId }, i) => ({ classId, pixels: 1, coverFraction: shares[i]! }));
  await stored(store.jobs.finish(id, 'c', facts, newFigure({ settings, cover })));
  const ends = shares.map((_, i) => shares.slice(0, i + 1).reduce((sum, share) => sum + share, 0));
  const labels = new Uint8Array(SIZE.widthPx * SIZE.heightPx);
  for (let i = 0; i < labels.length; i += 1) {
    const x = (i % SIZE.widthPx) / SIZE.widthPx;
    labels[i] = ends.findIndex((end) => x < end - 1e-9) + 1;
  }
  masks.set(id, { ...SIZE, labels });
  await follow();
  return id;
}

/** Calls every point of a photo by a rule, in the order of the sitting. Stored in one go, which is quicker. */
async function callAll(photoId: string, observer: string, verdict: (pointId: number) => string | null) {
  const photo = (await points.counted(DATE)).find((one) => one.photoId === photoId)!;
  const made: PointCallRecord[] = [];
  const addCall = store.points.addCall;
  store.points.addCall = async (call) => {
    made.push(call);
    return { written: true, value: true };
  };
  const calling = points.call(photo, observer);
  for (let session = calling.session.get(); session.position < session.order.length; ) {
    calling.act({ type: 'call', classId: verdict(session.order[session.position]!) });
    session = calling.session.get();
  }
  await calling.store();
  store.points.addCall = addCall;
  await database.transact('write', ['calls'], async ({ calls }) => {
    for (const call of made) await calls.put(call);
  });
  await points.hold(false);
}

const counted = async (photoId: string) =>
  (await points.counted(DATE)).find((one) => one.photoId === photoId)!;

const draft = (n: number, photosPerTreatment: number | null = null) => ({
  ratingDates: [DATE],
  design: { kind: 'simple-random', points: n } as const,
  seed: 7,
  photosPerTreatment,
});

/** Points by hand: so many in each band of the mask. */
async function layBands(photoId: string, inBand: readonly number[], shares: readonly number[]) {
  const at: { x: number; y: number }[] = [];
  let left = 0;
  inBand.forEach((count, band) => {
    for (let i = 0; i < count; i += 1) {
      at.push({ x: left + shares[band]! / 2, y: (i + 0.5) / count });
    }
    left += shares[band]!;
  });
  const set: PointSet = {
    design: { kind: 'simple-random', points: at.length },
    seed: 3,
    extent: [1, 1],
    placedIn: [photoPoint(0, 0), photoPoint(200, 0), photoPoint(200, 100), photoPoint(0, 100)],
    points: at.map(({ x, y }, index) => ({ id: index + 1, at: plotPoint(x, y), line: null, replaces: null })),
    leftOut: 0,
  };
  const plan = {
    id: `plan ${photoId}`,
    trialId: null,
    ratingDate: DATE,
    design: set.design,
    seed: 3,
    photosPerTreatment: null,
    drawnFrom: 1,
    leftOut: { withStrokes: 0, inReviewQueue: 0 },
    createdAt: '2027-05-18T08:00:00.000Z',
    by: null,
  };
  await stored(store.points.addPlan(plan, [{ id: `set ${photoId}`, photoId, set }]));
  await points.hold(false);
}

describe('published and recomputed values, through what the screen does', () => {
  const cases = referenceValues<{
    cases: {
      id: string;
      classes: string[];
      matrix_rows_map_columns_reference: number[][];
      mapped_area: number[];
      expected: Record<string, number[]> & { overall_accuracy: number };
    }[];
  }>('area-estimation.json').cases;

  // a band has to be a pixel wide: cases with a smaller share are left to the test of the formula
  const wide = cases.filter(({ mapped_area, classes }) => {
    const sum = mapped_area.reduce((a, b) => a + b, 0);
    return classes.length <= 12 && mapped_area.every((area) => area / sum >= 0.01);
  });

  test('there are such cases', () => expect(wide.length).toBeGreaterThan(0));

  test.each(wide)('adjusted cover and accuracies of $id', async (published) => {
    const { matrix_rows_map_columns_reference: matrix, mapped_area, expected } = published;
    const sum = mapped_area.reduce((a, b) => a + b, 0);
    const shares = mapped_area.map((area) => area / sum);
    const classes = published.classes.map(
      (_, i): CoverClass => ({
        ...DEFAULT_CLASSES[0]!,
        id: `class-${i + 1}`,
        key: String(i + 1),
      }),
    );
    openTrial(classes);
    const photoId = await measured('a.jpg', '101', shares, classes);
    await layBands(
      photoId,
      matrix.map((row) => row.reduce((a, b) => a + b, 0)),
      shares,
    );
    const verdicts = matrix.flatMap((row) =>
      row.flatMap((count, column) => new Array<string>(count).fill(classes[column]!.id)),
    );
    await callAll(photoId, 'K', (pointId) => verdicts[pointId - 1]!);

    const photo = await counted(photoId);
    const errors = maskErrorsOf(photo, 'K', points.classIds)!;
    expect(errors.counts).toEqual(matrix);
    const reference = {
      classes: points.classIds,
      mappedFraction: photo.mask!.mappedFraction,
      counts: errors.counts,
    };
    const adjusted = adjustCover(reference);
    adjusted.adjustedFraction.forEach((value, i) => {
      expect(value).toBeCloseTo(expected.area_proportion![i]!, 9);
      expect(adjusted.standardError[i]).toBeCloseTo(expected.area_proportion_se![i]!, 9);
      expect(adjusted.usersAccuracy[i]).toBeCloseTo(expected.users_accuracy![i]!, 9);
      expect(adjusted.producersAccuracy[i]).toBeCloseTo(expected.producers_accuracy![i]!, 9);
    });
    expect(adjusted.overallAccuracy).toBeCloseTo(expected.overall_accuracy, 9);

    // what the command line reads of the saved counts, and what is kept for a comparison, say the same
    const read = readReferenceCounts(writeReferenceCounts(reference));
    if (!read.ok) throw new Error(read.problem.code);
    expect(adjustCover(read.reference)).toEqual(adjusted);
    const own = (await points.figures(DATE, 'K')).byPhoto!.photos[0]!.adjustment;
    if (!own.ok) throw new Error(own.code);
    own.classes.forEach(({ coverFraction, standardError }, i) => {
      expect(coverFraction).toBeCloseTo(adjusted.adjustedFraction[i]!, 12);
      expect(standardError).toBeCloseTo(adjusted.standardError[i]!, 12);
    });
    await points.keepFigures(DATE, 'K', 'K');
    await follow();
    const kept = photos.get()[0]!.figures;
    expect(kept.adjusted!.cover.map(({ coverFraction }) => coverFraction)).toEqual(
      own.classes.map(({ coverFraction }) => coverFraction),
    );
    expect(kept.points!.measuredPixels).toBe(verdicts.length);
  });

  const kappas = referenceValues<{
    cases: { name: string; table: number[][]; kappa: number | null; se: number }[];
  }>('kappa.json').cases.filter(
    ({ table, kappa }) => table.length === 3 && kappa !== null && table.flat().every(Number.isInteger),
  );

  test.each(kappas)('kappa of two observers: $name', async ({ table, kappa, se }) => {
    const photoId = await measured('a.jpg', '101');
    const pairs = table.flatMap((row, i) =>
      row.flatMap((count, j) => Array.from({ length: count }, () => [i, j] as const)),
    );
    await layBands(photoId, [pairs.length, 0, 0], [0.5, 0.3, 0.2]);
    await callAll(photoId, 'K', (pointId) => points.classIds[pairs[pointId - 1]![0]]!);
    await callAll(photoId, 'M', (pointId) => points.classIds[pairs[pointId - 1]![1]]!);
    const photo = await counted(photoId);
    expect(observersOf([photo])).toEqual(['K', 'M']);
    const agreement = observerAgreement(verdictPairs([photo], 'K', 'M', points.classIds), 3);
    expect(agreement.kappa!.kappa).toBeCloseTo(kappa!, 10);
    expect(agreement.kappa!.standardError).toBeCloseTo(se, 10);
  });

  const proportions = referenceValues<{
    computed_95: { x: number; n: number; wilson: [number, number] }[];
  }>('proportion-ci.json').computed_95.filter(({ n }) => n <= 300);

  test.each(proportions)('Wilson interval of $x in $n points', async ({ x, n, wilson }) => {
    const photoId = await measured('a.jpg', '101');
    await layBands(photoId, [n, 0, 0], [0.5, 0.3, 0.2]);
    await callAll(photoId, 'K', (pointId) => points.classIds[pointId <= x ? 0 : 1]!);
    const { classes } = estimatePhotoCover(await counted(photoId), 'K', points.classIds);
    expect(classes[0]!.interval!.low).toBeCloseTo(wilson[0], 10);
    expect(classes[0]!.interval!.high).toBeCloseTo(wilson[1], 10);
  });
});

describe('planning', () => {
  test('a sample within every treatment, without photos that were painted on or reviewed; the same again', async () => {
    openTrial();
    const ids: string[] = [];
    for (const [index, { plot }] of samplePlan().plots.entries()) {
      ids.push(await measured(`${index}.jpg`, plot));
    }
    const stroke = { id: 's', photoId: ids[0]!, classId: 'ryegrass', radiusPx: 2, by: null };
    await stored(
      store.teaching.replaceStrokes(
        [],
        [{ ...stroke, points: [photoPoint(1, 1)], at: '2027-05-17T08:00:00.000Z' }],
      ),
    );
    await stored(store.reviews.judge(ids[1]!, 'accepted', 'f', 'K'));
    const [date] = await points.preview(draft(5, 2));
    expect(date!.drawn.map(({ treatment, photos: drawn }) => [treatment, drawn.length])).toEqual([
      ['1', 2],
      ['2', 2],
      ['3', 2],
      ['4', 2],
    ]);
    const names = date!.drawn.flatMap((one) => one.photos);
    expect(names).not.toContain(ids[0]);
    expect(names).not.toContain(ids[1]);
    expect(date!.drawn.reduce((sum, { withStrokes }) => sum + withStrokes, 0)).toBe(1);
    expect(date!.drawn.reduce((sum, { inReviewQueue }) => sum + inReviewQueue, 0)).toBe(1);
    expect(await points.preview(draft(5, 2))).toEqual([date]);
    await points.plan(draft(5, 2), 'K');
    expect(
      points.state
        .get()
        .sets.map(({ photoId }) => photoId)
        .sort(),
    ).toEqual([...names].sort());
    // a second plan leaves photos with points as they are
    const [second] = await points.plan(draft(9), 'K');
    expect(second!.already).toBe(8);
    expect(points.state.get().sets.filter(({ set }) => set.points.length === 5)).toHaveLength(8);
  });

  test('taken back only while nobody has called a point', async () => {
    const photoId = await measured('a.jpg', '101');
    await points.plan(draft(2), 'K');
    const [plan] = points.state.get().plans;
    await callAll(photoId, 'K', () => null);
    await points.removePlan(plan!.id, 'K');
    expect(points.state.get().plans).toHaveLength(1);
    const other = await measured('b.jpg', '102');
    await points.plan(draft(3), 'K');
    const newest = points.state.get().plans.at(-1)!;
    await points.removePlan(newest.id, 'K');
    expect(points.state.get().sets.map((set) => set.photoId)).not.toContain(other);
  });
});

describe('calling', () => {
  test('100 calls faster than the store: all kept, each an own transaction, in their order', async () => {
    const photoId = await measured('a.jpg', '101');
    await points.plan(draft(100), null);
    const photo = await counted(photoId);
    const calling = points.call(photo, 'K');
    const { order } = calling.session.get();
    for (let i = 0; i < 100; i += 1) {
      calling.act({ type: 'call', classId: points.classIds[i % 3]! });
    }
    expect(calling.session.get().position).toBe(100);
    await calling.store();
    const { calls } = await store.points.load();
    expect(calls.map(({ pointId }) => pointId)).toEqual(order);
    expect(calls.map(({ classId }) => classId)).toEqual(order.map((_, i) => points.classIds[i % 3]));
    expect(new Set(calls.map(({ calledAt }) => calledAt)).size).toBe(100);
  });

  test('taken up again where it was left, by the same order; a later call replaces an earlier one', async () => {
    const photoId = await measured('a.jpg', '101');
    await points.plan(draft(10), null);
    const first = points.call(await counted(photoId), 'K');
    for (const classId of ['ryegrass', 'weedy-grass', null]) first.act({ type: 'call', classId });
    first.act({ type: 'back' });
    first.act({ type: 'call', classId: 'bare-ground' });
    await first.store();
    await points.hold(false);
    const again = points.call(await counted(photoId), 'K');
    expect(again.session.get().order).toEqual(first.session.get().order);
    expect(again.session.get().position).toBe(3);
    expect(countsOf(await counted(photoId), 'K', points.classIds)).toEqual({
      hits: [1, 1, 1],
      indeterminate: 0,
      unlabelled: 7,
      outside: 0,
    });
    expect(points.call(await counted(photoId), 'M').session.get().position).toBe(0);
  });

  test('a call that cannot be stored waits and is stored with the next; none is lost', async () => {
    const photoId = await measured('a.jpg', '101');
    await points.plan(draft(5), null);
    const addCall = store.points.addCall.bind(store.points);
    store.points.addCall = async () => ({ written: false, problem: { code: 'quota-exceeded' } });
    const calling = points.call(await counted(photoId), 'K');
    calling.act({ type: 'call', classId: 'ryegrass' });
    await calling.store();
    expect(calling.unstored.get()).toBe(1);
    store.points.addCall = addCall;
    calling.act({ type: 'call', classId: 'weedy-grass' });
    await calling.store();
    expect(calling.unstored.get()).toBe(0);
    expect((await store.points.load()).calls.map(({ classId }) => classId)).toEqual([
      'ryegrass',
      'weedy-grass',
    ]);
  });

  test('a moved frame: called points outside are kept, marked and not counted; replaced on request', async () => {
    const photoId = await measured('a.jpg', '101');
    await points.plan(draft(40), null);
    await callAll(photoId, 'K', () => 'ryegrass');
    const corners = [
      photoPoint(100, 0),
      photoPoint(200, 0),
      photoPoint(200, 100),
      photoPoint(100, 100),
    ] as const;
    const frame = { corners, sizeMm: null };
    await stored(store.areas.change([photoId], (area) => ({ ...area, frame, frameBy: 'person' }), 'K'));
    await follow();
    const moved = await counted(photoId);
    const { hits, outside } = countsOf(moved, 'K', points.classIds);
    expect(outside).toBeGreaterThan(0);
    expect(hits[0]! + outside).toBe(40);
    expect(moved.calls).toHaveLength(40);
    expect(await points.replaceOutside(moved, 'K')).toBe(true);
    const after = await counted(photoId);
    expect(countsOf(after, 'K', points.classIds)).toMatchObject({
      hits: [40 - outside, 0, 0],
      unlabelled: outside,
      outside: 0,
    });
    expect(after.calls).toHaveLength(40);
  });
});

describe('edges', () => {
  test('one point', async () => {
    const photoId = await measured('a.jpg', '101');
    await points.plan(draft(1), null);
    await callAll(photoId, 'K', () => 'ryegrass');
    const photo = await counted(photoId);
    expect(isCounted(photo, 'K', points.classIds)).toBe(true);
    const estimate = estimatePhotoCover(photo, 'K', points.classIds);
    expect(estimate.classes[0]).toMatchObject({ coverFraction: 1 });
    // 1 - 0.05^(1/1), by hand
    expect(estimate.classes[1]!.belowFraction).toBeCloseTo(0.95, 12);
    const { byPhoto } = await points.figures(DATE, 'K');
    expect(byPhoto!.photos[0]!.adjustment).toMatchObject({ ok: false, code: 'stratum-too-few-points' });
  });

  test('all "cannot tell": no figure, nothing kept', async () => {
    const photoId = await measured('a.jpg', '101');
    await points.plan(draft(20), null);
    await callAll(photoId, 'K', () => null);
    const estimate = estimatePhotoCover(await counted(photoId), 'K', points.classIds);
    expect(estimate).toMatchObject({ points: 0, indeterminate: 20 });
    expect(estimate.notes.map(({ code }) => code)).toContain('no-points-judged');
    expect(await points.keepFigures(DATE, 'K', 'K')).toEqual({ points: 0, adjusted: 0 });
  });

  test('a class never observed, one never mapped: the figures stand, with 0 and an interval', async () => {
    const photoId = await measured('a.jpg', '101', [0.6, 0.4, 0]);
    await layBands(photoId, [30, 20, 0], [0.6, 0.4, 0]);
    await callAll(photoId, 'K', (pointId) => (pointId <= 35 ? 'ryegrass' : 'bare-ground'));
    const { byPhoto } = await points.figures(DATE, 'K');
    const { adjustment } = byPhoto!.photos[0]!;
    if (!adjustment.ok) throw new Error(adjustment.code);
    // by hand: 0.6 x 30/30 + 0.4 x 5/20; none observed; 0.4 x 15/20
    expect(adjustment.classes.map(({ coverFraction }) => coverFraction)).toEqual([
      expect.closeTo(0.7, 12),
      0,
      expect.closeTo(0.3, 12),
    ]);
    expect(adjustment.classes[1]!.interval.high).toBeGreaterThan(0);
  });

  test('a mask of another rule for small gaps, or of a class that is gone, is not held against the points', async () => {
    const photoId = await measured('a.jpg', '101');
    openTrial();
    await points.plan(draft(10), null);
    await callAll(photoId, 'K', () => 'ryegrass');
    expect((await counted(photoId)).mask).not.toBeNull();
    openTrial(DEFAULT_CLASSES.slice(0, 2));
    expect((await counted(photoId)).mask).toBeNull();
    openTrial();
    const state = trial.get();
    if (state.state !== 'open') throw new Error('no trial');
    const gapRule = { kind: 'small-patches-to-surroundings', smallerThanMm: 5 } as const;
    trial.set({ ...state, plan: { ...state.plan, trial: { ...state.plan.trial, gapRule } } });
    const photo = await counted(photoId);
    expect(photo.mask).toBeNull();
    expect(photo).toMatchObject({ otherRuleCalls: 10, calls: [] });
  });

  test('a photo that was removed takes its points and calls along', async () => {
    const photoId = await measured('a.jpg', '101');
    await points.plan(draft(4), null);
    await callAll(photoId, 'K', () => 'ryegrass');
    await stored(store.photos.remove([photoId], 'K'));
    await follow();
    await points.hold(false);
    expect(await points.counted(DATE)).toEqual([]);
    expect((await store.points.load()).calls).toEqual([]);
  });
});

test('counts on the turf and observer tests are kept, and can be taken back', async () => {
  await points.addFieldCount({
    plot: '101',
    place: null,
    ratingDate: DATE,
    observer: 'K',
    hits: points.classIds.map((classId, i) => ({ classId, points: 10 * i })),
    indeterminate: 1,
    design: 'grid of strings',
  });
  const [count] = points.state.get().fieldCounts;
  expect(count).toMatchObject({ plot: '101', indeterminate: 1 });
  await points.removeFieldCount(count!.id, 'K');
  expect(points.state.get().fieldCounts).toEqual([]);
  await points.addTest({
    observer: 'K',
    round: 1,
    pictures: [
      { picture: 'p', rated: [1, 0, 0], called: [0, null], truth: [0, 2], trueCover: [0.5, 0.2, 0.3] },
    ],
  });
  expect(points.state.get().tests).toMatchObject([{ observer: 'K', round: 1 }]);
});
