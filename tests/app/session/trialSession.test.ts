import { expect, test } from 'vitest';
import { emptyPlan, samplePlan as samplePlanOfApp } from '../../../src/app/session/trialPlans.ts';
import { checkRecord } from '../../../src/core/trial/checkRecord.ts';
import { planProblems } from '../../../src/core/trial/planProblems.ts';
import { repeatableRandom } from '../../../src/core/trial/repeatableRandom.ts';
import { trialPlanSchema } from '../../../src/core/trial/trialPlan.ts';
import { samplePlan } from '../../core/trial/samplePlan.ts';
import { testBrowser } from './testSession.ts';

const signature = { who: 'K', why: 'correction' };

test('a new plan and the sample plan satisfy the schema and contradict nothing', async () => {
  const plans = [
    emptyPlan('Outfield east', 'Larkrise Park', 'perennial ryegrass', repeatableRandom(1)),
    await samplePlanOfApp('Outfield east', repeatableRandom(2)),
  ];
  for (const plan of plans) {
    expect(checkRecord(trialPlanSchema, plan)).toMatchObject({ ok: true });
    expect(planProblems(plan)).toEqual([]);
  }
  // by hand from sample-images/trial.json: five days of spraying, the first four of them on two treatments
  expect(plans[1]!.applications.map(({ treatments }) => treatments)).toEqual([
    [2, 4],
    [3, 4],
    [3, 4],
    [3, 4],
    [4],
  ]);
});

test('an edit that the schema refuses is told by its field and changes nothing', async () => {
  const session = await testBrowser().open();
  const trial = await session.openTrial();
  await trial.create(samplePlan(), 'K');
  const result = await trial.edit(
    (plan) => ({ ...plan, trial: { ...plan.trial, sowing: { ...plan.trial.sowing, date: '2027-02-30' } } }),
    signature,
  );
  expect(result).toMatchObject({
    ok: false,
    problems: [{ field: 'trial.sowing.date', value: '2027-02-30', code: 'not-a-day' }],
  });
  expect(trial.trial.get()).toMatchObject({ plan: { trial: { sowing: { date: '2027-03-08' } } } });
  await session.close();
});

test('an edit is on screen once it was answered, in the other tab too', async () => {
  const browser = testBrowser();
  const [one, other] = [await browser.open(), await browser.open()];
  const [here, there] = [await one.openTrial(), await other.openTrial()];
  await here.create(samplePlan(), 'K');
  await expect.poll(() => there.trial.get().state).toBe('open');
  await here.edit((plan) => ({ ...plan, trial: { ...plan.trial, name: 'Outfield west' } }), signature);
  expect(here.trial.get()).toMatchObject({ plan: { trial: { name: 'Outfield west' } } });
  await expect.poll(() => there.trial.get()).toMatchObject({ plan: { trial: { name: 'Outfield west' } } });
  await one.close();
  await other.close();
});

test('a stored plan that cannot be read is told with its fields, and stays as it is', async () => {
  const browser = testBrowser();
  const session = await browser.open();
  const trial = await session.openTrial();
  await trial.create(samplePlan(), 'K');
  const state = trial.trial.get();
  const id = state.state === 'open' ? state.id : '';
  await browser.database.transact('write', ['trials'], async ({ trials }) => {
    const record = (await trials.get(id)) as { plan: object };
    await trials.put({ ...record, plan: { ...record.plan, treatments: 'all' } });
  });
  await trial.load();
  expect(trial.trial.get()).toMatchObject({ state: 'unreadable', problems: [{ field: 'treatments' }] });
  const after = trial.trial.get();
  expect(JSON.parse(after.state === 'unreadable' ? after.stored : '')).toMatchObject({ treatments: 'all' });
  await session.close();
});
