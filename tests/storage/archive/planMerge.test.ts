import { describe, expect, it } from 'vitest';
import { sha256Of } from '../../../src/app/session/sha256Of.ts';
import { recordsInScope } from '../../../src/storage/archive/archiveScope.ts';
import type { MergePlan, MergeSide } from '../../../src/storage/archive/mergeTypes.ts';
import { planMerge } from '../../../src/storage/archive/planMerge.ts';
import type { ProjectStore } from '../../../src/storage/projectStore.ts';
import { samplePlan } from '../../core/trial/samplePlan.ts';
import { archiveOf, newStore, takeIn } from '../../support/archives.ts';
import { addPhoto, FACTS, FRAME, newFigure, newPhoto, stored } from '../support.ts';

const RULES = {
  fileNamePatterns: [],
  walk: { along: 'rows', turn: 'same-way', startRow: 'first', startColumn: 'first' },
  orderTrusted: false,
} as const;

const PHOTO = '2027-05-17_101.jpg';
const day = (date: string, rainMm: number | null) => ({
  day: date,
  airC: null,
  airLeastC: null,
  airMostC: null,
  soilC: null,
  rainMm,
});

/** A store with a trial, one measured photo and a score. */
async function firstDevice(): Promise<ProjectStore> {
  const store = newStore('a');
  await stored(store.trials.create({ plan: samplePlan(), photoRules: RULES as never }, 'K'));
  const sha256 = await sha256Of(new Uint8Array(newPhoto(PHOTO).bytes));
  const id = await addPhoto(store, PHOTO, { sha256 });
  await stored(store.jobs.claim(id, 'run'));
  await stored(store.jobs.finish(id, 'run', FACTS, newFigure()));
  await stored(
    store.trials.score({
      trialId: 'a1',
      variable: 'turf-quality',
      plot: '101',
      ratingDate: '2027-05-17',
      rater: 'K',
      value: 6,
    }),
  );
  return store;
}

/** The same on a second device, by an archive. */
async function twoDevices(): Promise<{ a: ProjectStore; b: ProjectStore }> {
  const a = await firstDevice();
  const b = newStore('b');
  await takeIn(b, (await archiveOf(a, { trialId: 'a1' })).file);
  return { a, b };
}

async function sideOf(store: ProjectStore): Promise<MergeSide> {
  const contents = recordsInScope(await store.archive.contents(), { trialId: 'a1' });
  const layers = await Promise.all(
    contents.corrections.map(
      async ({ photoId, layer }) => [photoId, await sha256Of(new Uint8Array(layer))] as const,
    ),
  );
  return { contents, layerSha256: new Map(layers) };
}

async function merge(here: ProjectStore, there: ProjectStore): Promise<MergePlan> {
  const planning = planMerge(await sideOf(here), await sideOf(there));
  if (!planning.ok) throw new Error(planning.code);
  return planning.plan;
}

const photoOf = async (store: ProjectStore) => (await store.archive.contents()).photos[0]!;
const nothing = { puts: [], deletes: [], overruled: [] };

/** Paints by hand; the bytes stand for a layer and need not be one. */
const correct = async (store: ProjectStore, revision: number, byte: number, by: string) =>
  stored(
    store.corrections.keep({
      photoId: (await photoOf(store)).id,
      revision,
      layer: new Uint8Array([revision, byte]).buffer,
      classIds: ['ryegrass', 'weedy-grass', 'bare-ground'],
      sequence: revision + 1,
      gesture: 'brush',
      patch: new Uint8Array([byte]).buffer,
      by,
      forgotten: [],
    }),
  );

describe('merging two devices that share a trial', () => {
  it('brings nothing while neither was worked on', async () => {
    const { a, b } = await twoDevices();
    const plan = await merge(a, b);
    expect(plan.changes(new Map())).toMatchObject(nothing);
    expect(plan.summary).toMatchObject({ trial: 'same', photos: { same: 1 }, scores: { same: 1 } });
  });

  it('takes over what one side changed, and offers it to nobody the other way', async () => {
    const { a, b } = await twoDevices();
    await stored(b.photos.change((await photoOf(b)).id, { plot: '104' }, 'L'));
    expect((await merge(a, b)).summary.photos).toMatchObject({ continued: 1, conflicts: 0 });
    const back = await merge(b, a);
    expect(back.summary.photos).toMatchObject({ behind: 1, continued: 0 });
    expect(back.changes(new Map())).toMatchObject(nothing);
    await takeIn(a, (await archiveOf(b, { trialId: 'a1' })).file);
    expect((await photoOf(a)).plot).toBe('104');
  });

  it('asks where both changed the place of a photo', async () => {
    const { a, b } = await twoDevices();
    await stored(a.photos.change((await photoOf(a)).id, { plot: '103' }, 'K'));
    await stored(b.photos.change((await photoOf(b)).id, { plot: '104' }, 'L'));
    const plan = await merge(a, b);
    expect(plan.conflicts).toMatchObject([
      { kind: 'photo', aspects: ['place'], here: { plot: '103' }, there: { plot: '104' } },
    ]);
    const id = plan.conflicts[0]!.id;
    const file = (await archiveOf(b, { trialId: 'a1' })).file;
    await takeIn(a, file, new Map([[id, 'here']]));
    expect((await photoOf(a)).plot).toBe('103');
    await takeIn(a, file, new Map([[id, 'there']]));
    expect((await photoOf(a)).plot).toBe('104');
    const noted = (await a.archive.contents()).auditEntries.filter(({ reason }) => reason === 'test archive');
    expect(noted).toMatchObject([
      { subject: 'photos', before: { plot: '103' }, after: { plot: '104' }, by: 'K' },
    ]);
  });

  it('knows by the gestures who carried corrections on', async () => {
    const { a, b } = await twoDevices();
    await correct(a, 0, 1, 'K');
    expect((await merge(b, a)).summary.photos).toMatchObject({ continued: 1 });
    await takeIn(b, (await archiveOf(a, { trialId: 'a1' })).file);
    await correct(b, 1, 2, 'L');
    expect((await merge(a, b)).summary.photos).toMatchObject({ continued: 1 });
    expect((await merge(b, a)).changes(new Map())).toMatchObject(nothing);
    await correct(a, 1, 3, 'K');
    const plan = await merge(a, b);
    expect(plan.conflicts).toMatchObject([
      {
        aspects: ['mask'],
        here: { gestures: 2, correctedBy: 'K' },
        there: { gestures: 2, correctedBy: 'L' },
      },
    ]);
    await takeIn(
      a,
      (await archiveOf(b, { trialId: 'a1' })).file,
      new Map([[plan.conflicts[0]!.id, 'there']]),
    );
    const { corrections, correctionPatches } = await a.archive.contents();
    expect(new Uint8Array(corrections[0]!.layer)).toEqual(new Uint8Array([1, 2]));
    expect(correctionPatches.map(({ by }) => by)).toEqual(['K', 'L']);
    expect((await merge(a, b)).conflicts).toEqual([]);
  });

  it('keeps one present figure of each method, whichever side is taken', async () => {
    const { a, b } = await twoDevices();
    for (const [store, share] of [
      [a, 0.6],
      [b, 0.5],
    ] as const) {
      const { id } = await photoOf(store);
      const frame = { ...FRAME, sizeMm: [500, share * 1000] as const };
      await stored(store.areas.change([id], (area) => ({ ...area, frame, frameBy: 'person' }), 'K'));
      await stored(store.jobs.claim(id, 'again'));
      const claimedSettings = { ...newFigure().settings, frame: { ...FRAME, sizeMm: [500, share * 1000] } };
      await stored(store.jobs.finish(id, 'again', FACTS, newFigure({ settings: claimedSettings as never })));
    }
    const plan = await merge(a, b);
    expect(plan.conflicts).toMatchObject([{ aspects: ['mask'] }]);
    for (const side of ['here', 'there'] as const) {
      await takeIn(a, (await archiveOf(b, { trialId: 'a1' })).file, new Map([[plan.conflicts[0]!.id, side]]));
      const figures = (await a.archive.contents()).figures.filter(({ current }) => current === 1);
      expect(figures.map(({ settings }) => settings.frame?.sizeMm)).toEqual([
        [500, side === 'here' ? 600 : 500],
      ]);
    }
  });

  it('knows by the audit who changed the plan last, and asks where both did', async () => {
    const { a, b } = await twoDevices();
    const rename = (store: ProjectStore, name: string) =>
      stored(
        store.trials.change('a1', ({ plan, photoRules }) => ({
          plan: { ...plan, trial: { ...plan.trial, name } },
          photoRules,
          entries: [
            {
              field: 'trial.name',
              old: plan.trial.name,
              new: name,
              who: 'L',
              when: '2027-06-02T08:00:00.000Z',
              why: 'x',
            },
          ],
        })),
      );
    await rename(b, 'Outfield north');
    expect((await merge(a, b)).summary.trial).toBe('continued');
    expect((await merge(b, a)).summary.trial).toBe('behind');
    await rename(a, 'Outfield south');
    const plan = await merge(a, b);
    expect(plan.conflicts).toMatchObject([{ kind: 'plan', fields: ['trial.name'] }]);
  });

  it('asks for scores and weather that differ, and adds what is missing', async () => {
    const { a, b } = await twoDevices();
    const place = { trialId: 'a1', variable: 'turf-quality', ratingDate: '2027-05-17', rater: 'L' };
    await stored(a.trials.score({ ...place, plot: '102', value: 5 }));
    await stored(b.trials.score({ ...place, plot: '102', value: 7 }));
    await stored(b.trials.score({ ...place, plot: '103', value: 8 }));
    await stored(a.trials.setWeather('a1', [day('2027-05-01', 3)], 'K'));
    await stored(b.trials.setWeather('a1', [day('2027-05-01', 4), day('2027-05-02', 0)], 'L'));
    const plan = await merge(a, b);
    expect(plan.summary.scores).toMatchObject({ new: 1, same: 1, conflicts: 1 });
    expect(plan.conflicts.map(({ kind }) => kind)).toEqual(['score', 'weather']);
    await takeIn(a, (await archiveOf(b, { trialId: 'a1' })).file);
    const kept = (await a.trials.open('a1'))!;
    expect(kept.scores.map(({ plot, value }) => [plot, value])).toEqual([
      ['101', 6],
      ['102', 5],
      ['103', 8],
    ]);
    expect(kept.weather).toEqual([day('2027-05-01', 3), day('2027-05-02', 0)]);
  });

  it('does not bring back a score that was taken back here', async () => {
    const { a, b } = await twoDevices();
    const place = {
      trialId: 'a1',
      variable: 'turf-quality',
      plot: '101',
      ratingDate: '2027-05-17',
      rater: 'K',
    };
    await stored(a.trials.score({ ...place, value: undefined }));
    expect((await merge(a, b)).summary.scores).toMatchObject({ new: 0, behind: 1 });
  });

  it('takes the same photo under two ids for one', async () => {
    const a = await firstDevice();
    const c = newStore('c');
    const sha256 = await sha256Of(new Uint8Array(newPhoto(PHOTO).bytes));
    await addPhoto(c, PHOTO, { sha256 });
    await takeIn(c, (await archiveOf(a, { trialId: 'a1' })).file);
    const { photos, figures } = await c.archive.contents();
    expect(photos).toHaveLength(1);
    expect(figures).toMatchObject([{ photoId: photos[0]!.id, current: 1 }]);
  });

  it('refuses another trial, naming both', async () => {
    const a = await firstDevice();
    const c = newStore('c');
    const other = samplePlan();
    const plan = { ...other, trial: { ...other.trial, code: 'ZZZZZZ', name: 'Practice ground' } };
    await stored(c.trials.create({ plan, photoRules: RULES as never }, 'K'));
    const contents = recordsInScope(await c.archive.contents(), { trialId: 'c1' });
    expect(planMerge(await sideOf(a), { contents, layerSha256: new Map() })).toEqual({
      ok: false,
      code: 'other-trial',
      here: 'Outfield east',
      there: 'Practice ground',
    });
  });
});
