import { describe, expect, test } from 'vitest';
import { photoPoint, plotPoint } from '../../src/core/geometry/points.ts';
import type { PointSet } from '../../src/core/point-grid/pointSet.ts';
import { addPhoto, DATABASE_KINDS, newFigure, overviewOf, stored, storeOver } from './support.ts';

const AT = '2027-05-18T08:00:00.000Z';
const set: PointSet = {
  design: { kind: 'regular-grid', columns: 2, rows: 1 },
  seed: 4_294_967_295,
  extent: [500, 500],
  placedIn: [photoPoint(0, 0), photoPoint(9, 0), photoPoint(9, 9), photoPoint(0, 9)],
  points: [1, 2].map((id) => ({ id, at: plotPoint(100 * id, 250), line: null, replaces: null })),
  leftOut: 0,
};
const plan = {
  id: 'plan',
  trialId: null,
  ratingDate: '2027-05-17',
  design: set.design,
  seed: set.seed,
  photosPerTreatment: 4,
  drawnFrom: 12,
  leftOut: { withStrokes: 1, inReviewQueue: 2 },
  createdAt: AT,
  by: 'K',
};
const call = {
  id: 'c1',
  pointSetId: 's1',
  pointId: 1,
  observer: 'K',
  classId: null,
  at: photoPoint(1.5, 2.5),
  calledAt: AT,
  gapRule: { kind: 'small-patches-to-surroundings', smallerThanMm: 5 } as const,
};

describe.each(DATABASE_KINDS)('counts at points, %s', (_, open) => {
  test('all that is kept can be read again', async () => {
    const store = storeOver(await open());
    const photoId = await addPhoto(store, 'a.jpg');
    expect(await stored(store.points.addPlan(plan, [{ id: 's1', photoId, set }]))).toBe(1);
    expect(await stored(store.points.addCall(call))).toBe(true);
    const count = {
      id: 'f',
      trialId: null,
      plot: '101',
      place: 2,
      ratingDate: '2027-05-17',
      observer: 'K',
      hits: [{ classId: 'ryegrass', points: 70 }],
      indeterminate: 3,
      design: '',
      enteredAt: AT,
    };
    await stored(store.points.addFieldCount(count));
    const observed = {
      id: 't',
      trialId: null,
      observer: 'K',
      round: 1,
      finishedAt: AT,
      pictures: [{ picture: 'p', rated: [1, 0], called: [0, null], truth: [0, 1], trueCover: [0.5, 0.5] }],
    };
    await stored(store.points.addTest(observed));
    expect(await store.points.load()).toEqual({
      plans: [plan],
      sets: [{ id: 's1', photoId, set, planId: 'plan', createdAt: AT, by: 'K' }],
      calls: [call],
      fieldCounts: [count],
      tests: [observed],
    });
    expect(store.unreadable()).toEqual([]);
    store.close();
  });

  test('a photo keeps the points it has; nothing is kept of photos that are gone', async () => {
    const store = storeOver(await open());
    const photoId = await addPhoto(store, 'a.jpg');
    await stored(store.points.addPlan(plan, [{ id: 's1', photoId, set }]));
    const later = { ...plan, id: 'later' };
    const sets = [
      { id: 's2', photoId, set },
      { id: 's3', photoId: 'gone', set },
    ];
    expect(await stored(store.points.addPlan(later, sets))).toBe(0);
    expect((await store.points.load()).plans.map(({ id }) => id)).toEqual(['plan']);
    expect(await stored(store.points.addCall({ ...call, pointSetId: 's3' }))).toBe(false);
    store.close();
  });

  test('figures are kept in one go, each as the newest of its method', async () => {
    const store = storeOver(await open());
    const ids = [await addPhoto(store, 'a.jpg'), await addPhoto(store, 'b.jpg')];
    const figure = newFigure({ method: 'points', modelId: 'points called by K' });
    const made = ids.map((photoId) => ({ photoId, figure }));
    expect(await stored(store.points.keepFigures([...made, { photoId: 'gone', figure }], 'K'))).toBe(2);
    await stored(store.points.keepFigures(made.slice(0, 1), 'M'));
    const all = await store.figures.all(ids[0]!);
    expect(all.map(({ current, measuredBy }) => [current, measuredBy])).toEqual([
      [0, 'K'],
      [1, 'M'],
    ]);
    const { photos } = await overviewOf(store);
    expect(photos.every(({ figures }) => figures.points?.method === 'points')).toBe(true);
    store.close();
  });

  test('other tabs hear of a call', async () => {
    const store = storeOver(await open());
    const photoId = await addPhoto(store, 'a.jpg');
    let heard = 0;
    const stop = store.observePoints(() => {
      heard += 1;
    });
    await stored(store.points.addPlan(plan, [{ id: 's1', photoId, set }]));
    await stored(store.points.addCall(call));
    stop();
    await stored(store.points.addCall({ ...call, id: 'c2' }));
    expect(heard).toBe(2);
    store.close();
  });
});
