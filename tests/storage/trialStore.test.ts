import { describe, expect, test } from 'vitest';
import { auditEntries } from '../../src/core/trial/audit.ts';
import type { TrialContent } from '../../src/storage/trialStore.ts';
import { samplePlan } from '../core/trial/samplePlan.ts';
import { DATABASE_KINDS, stored, storeOver, testChannels } from './support.ts';

const content: TrialContent = {
  plan: samplePlan(),
  photoRules: {
    fileNamePatterns: ['{date}_{plot}'],
    walk: { along: 'rows', turn: 'there-and-back', startRow: 'first', startColumn: 'first' },
    orderTrusted: false,
  },
};

/** Another name of the trial, as a person changes it. */
const renamed = (name: string) => (before: TrialContent) => {
  const plan = { ...before.plan, trial: { ...before.plan.trial, name } };
  const signature = { who: 'K', why: 'typing error', when: '2027-05-01T08:00:00.000Z' };
  return { ...before, plan, entries: auditEntries(before.plan, plan, signature) };
};

describe.each(DATABASE_KINDS)('trials %s', (_, open) => {
  test('a trial is found again as it was made, and its making stands in the audit', async () => {
    const database = await open();
    const store = storeOver(database);
    const id = await stored(store.trials.create(content, 'K'));
    expect((await store.trials.open(id))?.trial).toMatchObject({ id, ...content });
    expect(await store.trials.all()).toHaveLength(1);
    const [entry] = await database.transact('read', ['auditEntries'], (tables) => tables.auditEntries.all());
    expect(entry).toMatchObject({ subject: 'trials', subjectId: id, by: 'K', before: null, field: null });
  });

  test('a change keeps old, new, who, when and why; a change to what is there already changes nothing', async () => {
    const database = await open();
    const store = storeOver(database);
    const id = await stored(store.trials.create(content, 'K'));
    expect(await stored(store.trials.change(id, renamed('Outfield west')))).toBe(true);
    expect(await stored(store.trials.change(id, renamed('Outfield west')))).toBe(false);
    expect((await store.trials.open(id))?.trial.plan.trial.name).toBe('Outfield west');
    const entries = await database.transact('read', ['auditEntries'], ({ auditEntries: table }) =>
      table.where('subjectId', id),
    );
    expect(entries).toHaveLength(2);
    expect(entries).toContainEqual(
      expect.objectContaining({
        field: 'trial.name',
        before: 'Outfield east',
        after: 'Outfield west',
        by: 'K',
        at: '2027-05-01T08:00:00.000Z',
        reason: 'typing error',
      }),
    );
  });

  test('edits of two tabs both count: each is applied to the plan as stored', async () => {
    const database = await open();
    const channels = testChannels();
    const [one, other] = [storeOver(database, channels(), 'a'), storeOver(database, channels(), 'b')];
    const id = await stored(one.trials.create(content, 'K'));
    const heard: string[] = [];
    other.observeTrials((ids) => heard.push(...ids));
    await Promise.all([
      stored(one.trials.change(id, renamed('Outfield west'))),
      stored(
        other.trials.change(id, (before) => {
          const plan = { ...before.plan, trial: { ...before.plan.trial, soil: 'sandy loam' } };
          const signature = { who: 'M', why: 'added', when: '2027-05-01T08:00:00.000Z' };
          return { ...before, plan, entries: auditEntries(before.plan, plan, signature) };
        }),
      ),
    ]);
    expect((await one.trials.open(id))?.trial.plan.trial).toMatchObject({
      name: 'Outfield west',
      soil: 'sandy loam',
    });
    await expect.poll(() => heard.length).toBeGreaterThan(0);
  });

  test('an edit that throws changes nothing', async () => {
    const store = storeOver(await open());
    const id = await stored(store.trials.create(content, 'K'));
    const written = await store.trials.change(id, () => {
      throw new Error('no such plot');
    });
    expect(written.written).toBe(false);
    expect((await store.trials.open(id))?.trial.plan).toEqual(content.plan);
  });

  test('scores by two people stand side by side; a changed one leaves the old one in the audit', async () => {
    const database = await open();
    const store = storeOver(database);
    const trialId = await stored(store.trials.create(content, 'K'));
    const place = { trialId, variable: 'turf-quality', plot: '101', ratingDate: '2027-05-17' };
    await stored(store.trials.score({ ...place, rater: 'K', value: 6.5 }, 'scored anew'));
    await stored(store.trials.score({ ...place, rater: 'M', value: null }, 'scored anew'));
    await stored(store.trials.score({ ...place, rater: 'K', value: 7 }, 'scored anew'));
    expect(await stored(store.trials.score({ ...place, rater: 'K', value: 7 }, 'scored anew'))).toBe(false);
    const { scores } = (await store.trials.open(trialId))!;
    expect(scores.map(({ rater, value }) => [rater, value]).sort()).toEqual([
      ['K', 7],
      ['M', null],
    ]);
    const entries = await database.transact('read', ['auditEntries'], (tables) => tables.auditEntries.all());
    expect(entries).toContainEqual(
      expect.objectContaining({
        before: { value: 6.5 },
        after: { value: 7 },
        by: 'K',
        reason: 'scored anew',
      }),
    );
    await stored(store.trials.score({ ...place, rater: 'M', value: undefined }, 'scored anew'));
    expect((await store.trials.open(trialId))!.scores).toHaveLength(1);
  });

  test('a removed trial goes with scores and weather, and stays whole in the audit', async () => {
    const database = await open();
    const store = storeOver(database);
    const trialId = await stored(store.trials.create(content, 'K'));
    const place = { trialId, variable: 'turf-quality', plot: '101', ratingDate: '2027-05-17', rater: 'K' };
    await stored(store.trials.score({ ...place, value: 6 }, 'scored anew'));
    const day = { airC: 12, airLeastC: null, airMostC: null, soilC: null, rainMm: 0 };
    await stored(store.trials.setWeather(trialId, [{ day: '2027-05-17', ...day }], 'K', 'weather read'));
    expect((await store.trials.open(trialId))?.weather).toHaveLength(1);
    await stored(store.trials.remove(trialId, 'K', 'entered twice'));
    expect(await store.trials.all()).toEqual([]);
    const tables = await database.transact('read', ['scores', 'weather', 'auditEntries'], async (raw) => ({
      scores: await raw.scores.all(),
      weather: await raw.weather.all(),
      audit: await raw.auditEntries.all(),
    }));
    expect([tables.scores, tables.weather]).toEqual([[], []]);
    expect(tables.audit).toContainEqual(
      expect.objectContaining({
        after: null,
        reason: 'entered twice',
        before: expect.objectContaining({ plan: content.plan, scores: [expect.objectContaining(place)] }),
      }),
    );
  });
});
