import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { readComparisonTrial } from '../../../src/core/exchange/observationTableTrial.ts';
import { comparisonTrialOf } from '../../../src/core/exchange/trialPlanComparison.ts';
import { appliedProduct, samplePlan } from '../trial/samplePlan.ts';

test('a comparison takes the same from the sample trial’s plan as from its trial file', () => {
  const file = readFileSync(new URL('../../../sample-images/trial.json', import.meta.url), 'utf8');
  const plan = samplePlan();
  for (const application of plan.applications) {
    application.products = [appliedProduct({ name: application.description })];
  }
  expect(readComparisonTrial(file)).toEqual({ ok: true, trial: comparisonTrialOf(plan) });
});

test('the first application is one with a product that was not left out', () => {
  const plan = samplePlan();
  const [first, , second] = plan.applications;
  first!.products = [appliedProduct()];
  first!.progress = { state: 'left-out', why: 'rain' };
  second!.products = [appliedProduct()];
  expect(comparisonTrialOf(plan).firstApplication).toBe('2027-04-01');
  expect(comparisonTrialOf({ ...plan, applications: [] }).firstApplication).toBeNull();
});
