import { expect, test } from 'vitest';
import { planProblemText } from '../../../src/core/text/trial.ts';
import { planProblems } from '../../../src/core/trial/planProblems.ts';
import { resolveTimings } from '../../../src/core/trial/resolveTimings.ts';
import type { Timing } from '../../../src/core/trial/timing.ts';
import { doneOn, plannedApplication, samplePlan } from './samplePlan.ts';

const beforeSowing: Timing = { kind: 'from-sowing', amount: 12, unit: 'days', side: 'before' };
const after = (application: string, amount = 3): Timing => ({
  kind: 'from-application',
  application,
  amount,
  unit: 'weeks',
  side: 'after',
});

function planWith(...timings: readonly (readonly [id: string, timing: Timing, done?: string])[]) {
  const applications = timings.map(([id, timing, done]) =>
    plannedApplication({ id, timing, ...(done === undefined ? {} : { progress: doneOn(done) }) }),
  );
  return { ...samplePlan(), applications };
}

test('days follow sowing and each other', () => {
  const plan = planWith(['C', after('B', 4)], ['A', beforeSowing], ['B', after('A')]);
  const days = resolveTimings(plan).applications;
  // sown 2027-03-08: 12 days before, 3 weeks on, 4 weeks on
  expect(days.get('A')).toEqual({ state: 'planned', day: '2027-02-24' });
  expect(days.get('B')).toEqual({ state: 'planned', day: '2027-03-17' });
  expect(days.get('C')).toEqual({ state: 'planned', day: '2027-04-14' });
});

test('moving sowing moves what is planned; what is done stays, and what follows it follows the day it was done', () => {
  const plan = planWith(['A', beforeSowing, '2027-02-26'], ['B', after('A')], ['C', beforeSowing]);
  plan.trial.sowing.date = '2027-03-15';
  const days = resolveTimings(plan).applications;
  expect(days.get('A')).toEqual({ state: 'done', day: '2027-02-26' });
  expect(days.get('B')).toEqual({ state: 'planned', day: '2027-03-19' });
  expect(days.get('C')).toEqual({ state: 'planned', day: '2027-03-03' });
});

test('what has no day says what it waits for', () => {
  const plan = planWith(
    ['A', beforeSowing],
    ['B', after('A')],
    ['C', { kind: 'growth-stage', stage: '21', expectedDate: null }],
    ['D', { kind: 'growth-stage', stage: '13', expectedDate: '2027-04-02' }],
    ['E', after('X')],
  );
  plan.trial.sowing.date = null;
  expect(Object.fromEntries(resolveTimings(plan).applications)).toEqual({
    A: { state: 'waiting', for: { code: 'sowing-date' } },
    B: { state: 'waiting', for: { code: 'application', application: 'A' } },
    C: { state: 'waiting', for: { code: 'growth-stage', stage: '21' } },
    D: { state: 'planned', day: '2027-04-02' },
    E: { state: 'waiting', for: { code: 'unknown-application', application: 'X' } },
  });
});

test('a ring is refused in words, once, and whatever hangs on it waits', () => {
  const plan = planWith(['A', after('B')], ['B', after('C')], ['C', after('A')], ['D', after('A')]);
  const rings = planProblems(plan).filter(({ code }) => code === 'timing-ring');
  expect(rings).toEqual([{ code: 'timing-ring', applications: ['A', 'B', 'C'] }]);
  expect(planProblemText(rings[0]!)).toContain(
    'A, B, C are each timed by the next and the last by the first',
  );
  expect(resolveTimings(plan).applications.get('D')).toMatchObject({
    state: 'waiting',
    for: { code: 'ring' },
  });
});

test('an application timed by itself is a ring of one', () => {
  const rings = planProblems(planWith(['A', after('A')])).filter(({ code }) => code === 'timing-ring');
  expect(rings).toEqual([{ code: 'timing-ring', applications: ['A'] }]);
});

test('a ring that was broken by doing one of its members is none', () => {
  const plan = planWith(['A', after('B'), '2027-03-01'], ['B', after('A')]);
  expect(resolveTimings(plan).applications.get('B')).toEqual({ state: 'planned', day: '2027-03-22' });
});

test('a thousand applications in a row are quick', () => {
  const chain = Array.from({ length: 1000 }, (_, index) => [`A${index}`, after(`A${index + 1}`, 0)] as const);
  const plan = planWith(...chain, ['A1000', beforeSowing]);
  expect(resolveTimings(plan).applications.get('A0')).toEqual({ state: 'planned', day: '2027-02-24' });
});
