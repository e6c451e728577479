import { expect, test } from 'vitest';
import { auditEntries, auditEntrySchema } from '../../../src/core/trial/audit.ts';
import { exclusionOf } from '../../../src/core/trial/deviation.ts';
import { samplePlan } from './samplePlan.ts';

const signature = { who: 'K', when: '2027-04-12T01:15:00Z', why: 'typing error' };

type Json = Parameters<typeof auditEntries>[0];
const changes = (before: unknown, after: unknown) =>
  auditEntries(before as Json, after as Json, signature).map(({ field, old, new: now }) => [field, old, now]);

test('a changed field is told with its path, old and new', () => {
  const [before, after] = [samplePlan(), samplePlan()];
  after.trial.sowing.rate!.amount = 12;
  after.applications[2]!.timing = { kind: 'date', date: '2027-04-02' };
  after.plots[0]!.treatment = 1;
  expect(changes(before, after)).toEqual([
    ['trial.sowing.rate.amount', 10, 12],
    ['applications[A3].timing.date', '2027-04-01', '2027-04-02'],
    ['plots[101].treatment', 3, 1],
  ]);
  const [entry] = auditEntries(before as Json, after as Json, signature);
  expect(entry).toMatchObject(signature);
  expect(auditEntrySchema.safeParse(entry).success).toBe(true);
});

test('members of lists that came, went or moved', () => {
  const [before, after] = [samplePlan(), samplePlan()];
  const [gone] = after.applications.splice(0, 1);
  after.applications.reverse();
  after.treatments.push({ number: 5, name: 'new', untreatedControl: null, levels: {}, notes: '' });
  const found = changes(before, after);
  expect(found).toEqual([
    ['treatments[5]', null, { number: 5, name: 'new', untreatedControl: null, levels: {}, notes: '' }],
    ['applications[A1]', gone, null],
  ]);
});

test('values that change kind, null and lists of plain values', () => {
  expect(changes({ a: null, b: [1, 2], c: 'x' }, { a: { d: 1 }, b: [1, 3, 4], c: 'x' })).toEqual([
    ['a', null, { d: 1 }],
    ['b[1]', 2, 3],
    ['b[2]', null, 4],
  ]);
  expect(changes(1, 2)).toEqual([['record', 1, 2]]);
  expect(changes(samplePlan(), samplePlan())).toEqual([]);
});

test('the order of classes is told in one entry, since labels follow it; the order of plots is not', () => {
  const [before, after] = [samplePlan(), samplePlan()];
  const ids = before.trial.classes.map(({ id }) => id);
  after.trial.classes.reverse();
  after.plots.reverse();
  expect(changes(before, after)).toEqual([['trial.classes.order', ids, [...ids].reverse()]]);
  after.trial.classes.reverse().pop();
  expect(changes(before, after).map(([field]) => field)).toEqual([`trial.classes[${ids.at(-1)}]`]);
});

test('nobody and no reason are refused', () => {
  expect(() => auditEntries(1, 2, { ...signature, who: ' ' })).toThrow('says who');
  expect(() => auditEntries(1, 2, { ...signature, why: '' })).toThrow('says why');
});

test('an exclusion keeps out its plot on its date and for its variable, and nothing else', () => {
  const one = { id: 'E1', plot: '101', ratingDate: '2027-04-12', variable: null, reason: 'flooded', by: 'K' };
  const observation = { plot: '101', ratingDate: '2027-04-12', variable: 'weedy-grass' };
  expect(exclusionOf(observation, [one])).toBe(one);
  expect(exclusionOf({ ...observation, ratingDate: '2027-05-17' }, [one])).toBeNull();
  expect(exclusionOf({ ...observation, plot: '102' }, [one])).toBeNull();
  expect(exclusionOf(observation, [{ ...one, variable: 'ryegrass' }])).toBeNull();
  expect(exclusionOf(observation, [{ ...one, ratingDate: null, variable: 'weedy-grass' }])).not.toBeNull();
});
