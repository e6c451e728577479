import { expect, test } from 'vitest';
import { planChangeQueryText } from '../../../src/core/text/trial.ts';
import { planChangeQueries } from '../../../src/core/trial/planChangeQueries.ts';
import type { TrialPlan } from '../../../src/core/trial/trialPlan.ts';
import { doneOn, samplePlan } from './samplePlan.ts';

function rated(change: (plan: TrialPlan) => void, done = true): [before: TrialPlan, after: TrialPlan] {
  const [before, after] = [samplePlan(), samplePlan()];
  for (const plan of [before, after]) {
    plan.ratings[0]!.doneOn = done ? '2027-04-13' : null;
    plan.applications[0]!.progress = done ? doneOn('2027-02-24') : { state: 'planned' };
  }
  change(after);
  return [before, after];
}

test.each<[string, (plan: TrialPlan) => void, object, string]>([
  [
    'the rule for small gaps',
    (plan) => {
      plan.trial.gapRule = { kind: 'small-patches-to-surroundings', smallerThanMm: 5 };
    },
    { code: 'gap-rule-after-rating', firstRating: '2027-04-13' },
    'after the first rating on 13 April 2027',
  ],
  [
    'a class less',
    (plan) => {
      plan.trial.classes.pop();
    },
    { code: 'class-removed-after-rating', class: 'bare-ground', firstRating: '2027-04-13' },
    'The class "bare-ground" is removed',
  ],
  [
    'a treated plot with another treatment',
    (plan) => {
      // application A1 was done on treatment 2, that of plot 104
      plan.plots.find(({ plot }) => plot === '104')!.treatment = 3;
    },
    { code: 'treatment-moved-after-application', plot: '104', application: 'A1' },
    'Plot 104 gets another treatment although application A1 was done',
  ],
])('%s is asked about once something was done, and not before', (_, change, query, sentence) => {
  const found = planChangeQueries(...rated(change));
  expect(found).toEqual([query]);
  expect(planChangeQueryText(found[0]!)).toContain(sentence);
  expect(planChangeQueries(...rated(change, false))).toEqual([]);
});

test('other changes ask nothing', () => {
  const [before, after] = rated((plan) => {
    plan.trial.gapRule = { kind: 'every-pixel' };
    plan.trial.name = 'another name';
  });
  expect(planChangeQueries(before, after)).toEqual([]);
});
