import { expect, test } from 'vitest';
import { readTrialPlan, writeTrialPlan } from '../../../src/core/exchange/trialPlan.ts';
import { trialPlanProblemText } from '../../../src/core/text/trial.ts';
import { samplePlan } from '../trial/samplePlan.ts';

const text = writeTrialPlan(samplePlan());

test('a plan is written and read again', () => {
  expect(readTrialPlan(text)).toEqual({ ok: true, value: samplePlan() });
  expect(readTrialPlan(`\uFEFF${text}`).ok).toBe(true);
});

test.each([
  ['', 'plan-not-json', 'The file is no JSON'],
  ['[1, 2]', 'plan-other-type', 'a trial plan says "trial-plan"'],
  ['null', 'plan-other-type', 'a trial plan says "trial-plan"'],
  [text.replace('"trial-plan"', '"cover-model"'), 'plan-other-type', 'says it is "cover-model"'],
  [text.replace('"version": 1', '"version": 2'), 'plan-newer', 'has version "2"; known is 1'],
  [text.replace('"2027-03-08"', '"2027-03-80"'), 'plan-field', 'trial.sowing.date is "2027-03-80"'],
  [text.replace('"2027-03-08"', '"2028-03-08"'), 'plan-contradiction', 'lies after the first rating'],
])('refused: %#', (content, code, sentence) => {
  const read = readTrialPlan(content);
  if (read.ok) throw new Error('expected a problem');
  expect(read.problems.map((problem) => problem.code)).toEqual([code]);
  expect(trialPlanProblemText(read.problems[0]!)).toContain(sentence);
});
