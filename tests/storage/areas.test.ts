import { describe, expect, test } from 'vitest';
import { photoPoint } from '../../src/core/geometry/points.ts';
import type { PhotoCheck } from '../../src/core/quality/checkPhoto.ts';
import type { FramePlan } from '../../src/core/trial/framePlaces.ts';
import { THERE_AND_BACK_BY_ROW } from '../../src/core/trial/walkingOrder.ts';
import type { ProjectStore } from '../../src/storage/projectStore.ts';
import { samplePlan } from '../core/trial/samplePlan.ts';
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
} from './support.ts';

const OUTLINE = [
  photoPoint(300, 300),
  photoPoint(360, 300),
  photoPoint(360, 360),
  photoPoint(300, 360),
] as const;
const FOUND = { found: true, corners: FRAME.corners, confidence: 0.97, warnings: [] } as const;
const CARD = {
  found: true,
  rectangle: [310, 310, 40, 40],
  outline: OUTLINE,
  colour: [150, 150, 150],
  warnings: [],
} as const;

const check = (facts: Partial<PhotoCheck> = {}): PhotoCheck => ({
  frame: FOUND,
  greyCard: CARD,
  balance: { before: [150, 155, 160], after: [155, 155, 155], gains: [1.07, 1, 0.93], capped: false },
  quality: {
    verdict: 'usable',
    findings: [{ code: 'tilted', severity: 'caution', tiltDegrees: 11 }],
    measures: {
      clippedLightsFraction: 0,
      clippedShadowsFraction: 0,
      medianGreen: 90,
      millimetresPerPixel: 0.85,
      detail: { detailPx: 1.1, noiseLevels: 3 },
      tiltDegrees: 11,
      shadow: { lightRatio: 1.1, darkFraction: 0.3 },
    },
  },
  ...facts,
});
const AREA = { frame: { ...FRAME, sizeMm: null }, ignored: [[...OUTLINE]], neutral: CARD.rectangle } as const;

const keep = (store: ProjectStore, id: string, claim: string, found = check(), area: object = AREA) =>
  stored(store.checks.keep(id, claim, { check: found, area: area as never, softwareVersion: '0.1.0' }));
const claimed = async (store: ProjectStore, id: string, claim = 'run 1') =>
  (await stored(store.jobs.claim(id, claim)))!;

describe.each(DATABASE_KINDS)('measured areas and findings %s', (_, openDatabase) => {
  const openStore = async () => storeOver(await openDatabase());

  test('a photo that nobody has settled is to be looked over; what is found is proposed and measured in', async () => {
    const store = await openStore();
    const id = await addPhoto(store, 'a.jpg');
    expect((await claimed(store, id)).find).toEqual({ frame: true, greyCard: true, frameSizeMm: null });
    expect(await keep(store, id, 'run 1')).toBe(true);
    expect(await store.areas.of(id)).toEqual({ ...AREA, frameBy: 'finder', neutralBy: 'finder' });
    expect(await store.checks.of(id)).toEqual(check());
    expect((await overviewOf(store)).photos).toMatchObject([
      { frameBy: 'finder', verdict: 'usable', offeredFrame: null, frame: AREA.frame },
    ]);
    const settings = newFigure().settings;
    await stored(store.jobs.finish(id, 'run 1', FACTS, newFigure({ settings: { ...settings, ...AREA } })));
    expect((await overviewOf(store)).photos).toMatchObject([{ stale: false, work: null }]);
    // measured again: nothing is looked for, and where the frame came from is still known
    await stored(store.jobs.enqueue([id]));
    expect((await claimed(store, id, 'run 2')).find).toMatchObject({ frame: false, greyCard: false });
    await keep(store, id, 'run 2', check({ frame: null, greyCard: null }));
    expect(await store.checks.of(id)).toEqual(check());
  });

  test('a doubtful frame is offered and not used', async () => {
    const store = await openStore();
    const id = await addPhoto(store, 'a.jpg');
    await claimed(store, id);
    const doubtful = { ...FOUND, confidence: 0.4 };
    await keep(store, id, 'run 1', check({ frame: doubtful, greyCard: null }), {
      frame: null,
      ignored: [],
      neutral: null,
    });
    expect((await overviewOf(store)).photos).toMatchObject([
      { frame: null, frameBy: null, offeredFrame: FRAME.corners },
    ]);
    // the whole photo, by choice: no longer offered, and never looked for again
    await stored(store.areas.change([id], (area) => ({ ...area, frameBy: 'person' }), 'K'));
    expect((await overviewOf(store)).photos).toMatchObject([{ frameBy: 'person', offeredFrame: null }]);
    await stored(store.jobs.enqueue([id]));
    expect((await claimed(store, id, 'run 2')).find.frame).toBe(false);
  });

  test('what a file or a person settled is never overwritten by what is found', async () => {
    const store = await openStore();
    const id = await addPhoto(store, 'a.jpg', { frame: FRAME, neutral: [1, 2, 3, 4] });
    expect((await claimed(store, id)).find).toMatchObject({ frame: false, greyCard: false });
    await keep(store, id, 'run 1');
    expect(await store.areas.of(id)).toMatchObject({
      frame: FRAME,
      frameBy: 'file',
      neutral: [1, 2, 3, 4],
      neutralBy: 'file',
      ignored: [],
    });
  });

  test('findings that come after the person has moved the frame are late and change nothing', async () => {
    const store = await openStore();
    const id = await addPhoto(store, 'a.jpg');
    await claimed(store, id);
    await stored(store.areas.change([id], (area) => ({ ...area, frame: FRAME, frameBy: 'person' }), null));
    expect(await keep(store, id, 'run 1')).toBe(false);
    expect(await store.checks.of(id)).toBeNull();
    expect(await store.areas.of(id)).toMatchObject({ frame: FRAME, frameBy: 'person', neutral: null });
  });

  test('confirming is kept in the audit and does not measure again; moving does', async () => {
    const database = await openDatabase();
    const store = storeOver(database);
    const id = await addPhoto(store, 'a.jpg');
    await claimed(store, id);
    await keep(store, id, 'run 1');
    const settings = { ...newFigure().settings, ...AREA };
    await stored(store.jobs.finish(id, 'run 1', FACTS, newFigure({ settings })));
    const confirm = store.areas.change([id], (area) => ({ ...area, frameBy: 'finder-confirmed' }), 'K');
    expect(await stored(confirm)).toEqual([id]);
    expect((await overviewOf(store)).photos).toMatchObject([{ frameBy: 'finder-confirmed', work: null }]);
    await stored(store.areas.change([id], (area) => ({ ...area, ignored: [] }), 'K'));
    expect((await overviewOf(store)).photos).toMatchObject([{ work: 'waiting', stale: true }]);
    const audit = await database.transact('read', ['auditEntries'], (tables) => tables.auditEntries.all());
    expect(audit).toMatchObject([
      { subject: 'photoSettings', subjectId: id, field: 'frameBy', by: 'K', before: 'finder' },
      { field: 'ignored', before: [OUTLINE], after: [] },
    ]);
    // the same area once more is no change
    expect(await stored(store.areas.change([id], (area) => ({ ...area }), 'K'))).toEqual([]);
  });

  test('a size for a date is that of its frames, and of those found later; of no other date', async () => {
    const store = await openStore();
    const [a, b] = [
      await addPhoto(store, 'a.jpg', { frame: { ...FRAME, sizeMm: null } }),
      await addPhoto(store, 'b.jpg'),
    ];
    const changed = await stored(store.areas.sizeFrames('2027-05-17', [a, b], [500, 400], null));
    expect(changed).toEqual([a]);
    expect((await store.areas.of(a)).frame?.sizeMm).toEqual([500, 400]);
    expect((await claimed(store, b)).find.frameSizeMm).toEqual([500, 400]);
    const other = await stored(store.photos.add(newPhoto('c.jpg', { ratingDate: '2027-06-21' })));
    expect((await claimed(store, other.photo.id)).find.frameSizeMm).toBeNull();
  });

  test('without one, the size is that of the frame plan of the trial', async () => {
    const store = await openStore();
    const framePlan: FramePlan = {
      ...{ placesPerPlot: 1, draw: 'fixed', seed: 1, frameWidthMm: 500, frameLengthMm: 400 },
      ...{ edgeMm: 300, apartMm: 0, measuredFrom: 'near-left', markedFrameCorner: 'near-left' },
    };
    const photoRules = { fileNamePatterns: [], walk: THERE_AND_BACK_BY_ROW, orderTrusted: false };
    await stored(store.trials.create({ plan: { ...samplePlan(), framePlan }, photoRules }, 'K'));
    const [a, b] = [await addPhoto(store, 'a.jpg'), await addPhoto(store, 'b.jpg')];
    expect((await claimed(store, a)).find.frameSizeMm).toEqual([500, 400]);
    await stored(store.areas.sizeFrames('2027-05-17', [b], [1000, 1000], null));
    expect((await claimed(store, b)).find.frameSizeMm).toEqual([1000, 1000]);
  });

  test('a model for the date leaves the frame with whoever settled it', async () => {
    const store = await openStore();
    const id = await addPhoto(store, 'a.jpg', { frame: FRAME });
    const taught = { id: 'f'.repeat(64), model: {} as never };
    await stored(store.teaching.adoptModel({ taught, ratingDate: null, trialId: null, photoIds: [id] }));
    expect(await store.areas.of(id)).toMatchObject({ frame: FRAME, frameBy: 'file' });
  });
});
