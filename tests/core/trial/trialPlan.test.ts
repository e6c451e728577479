import { expect, test } from 'vitest';
import { fieldProblemText } from '../../../src/core/text/trial.ts';
import { checkRecord } from '../../../src/core/trial/checkRecord.ts';
import { planProblems, planQueries } from '../../../src/core/trial/planProblems.ts';
import { type TrialPlan, trialPlanSchema } from '../../../src/core/trial/trialPlan.ts';
import { appliedProduct, plannedApplication, samplePlan } from './samplePlan.ts';

test('the sample trial is a plan without problems or queries', () => {
  expect(checkRecord(trialPlanSchema, samplePlan())).toEqual({ ok: true, value: samplePlan() });
  expect(planProblems(samplePlan())).toEqual([]);
  expect(planQueries(samplePlan())).toEqual([]);
});

/** Sets one field of the plan by its path. */
function withField(path: string, value: unknown): unknown {
  const plan = structuredClone(samplePlan()) as unknown as Record<string, unknown>;
  plan.applications = [
    plannedApplication({
      id: 'A1',
      products: [appliedProduct({ rate: { amount: 1, unit: 'L/ha' } })],
      temperatureWindow: { of: 'soil', leastC: 10, mostC: 20, meanOfDays: 3 },
    }),
  ];
  const parts = path.replaceAll('[', '.').replaceAll(']', '').split('.');
  let target = plan;
  for (const part of parts.slice(0, -1)) target = target[part] as Record<string, unknown>;
  if (value === undefined) delete target[parts.at(-1)!];
  else target[parts.at(-1)!] = value;
  return plan;
}

test.each([
  ['trial.name', '', { code: 'blank' }],
  ['trial.name', undefined, { code: 'missing' }],
  ['trial.code', 'K7QFIM', { code: 'not-in-this-form' }],
  ['trial.sowing.date', '2027-02-30', { code: 'not-a-day' }],
  ['trial.sowing.rate.amount', 0, { code: 'too-small', least: 0, allowed: false }],
  ['trial.sowing.rate.amount', '10', { code: 'wrong-kind', expected: 'number' }],
  ['trial.sowing.rate.unit', 'L/ha', { code: 'unit-of-wrong-kind' }],
  ['trial.mowing.heightMm', 3000, { code: 'too-large', most: 300, allowed: true }],
  ['trial.plotSize.netWidthMm', 1600, { code: 'net-larger-than-gross', grossMm: 1500 }],
  ['trial.site.latitudeDegrees', -95, { code: 'too-small', least: -90, allowed: true }],
  ['trial.classes[2].key', 'R', { code: 'not-unique' }],
  ['trial.gapRule.kind', 'some-pixels', { code: 'not-one-of' }],
  ['treatments[1].number', 1.5, { code: 'not-whole' }],
  ['treatments[1].number', 0, { code: 'too-small', least: 1, allowed: true }],
  ['treatments[0].untreatedControl', 'yes', { code: 'not-one-of', allowed: ['included', 'adjacent'] }],
  ['applications[0].timing.kind', 'soon', { code: 'not-one-of' }],
  ['applications[0].timing.date', '2027-00-10', { code: 'not-a-day' }],
  ['applications[0].products[0].rate.unit', 'oz/acre', { code: 'ounce-unclear' }],
  ['applications[0].products[0].rate.unit', 'buckets', { code: 'unit-unknown' }],
  ['applications[0].products[0].rate.amount', Number.NaN, { code: 'wrong-kind' }],
  ['applications[0].products[0].rate.amount', -1, { code: 'too-small' }],
  ['applications[0].treatments', [], { code: 'too-few', least: 1 }],
  ['applications[0].temperatureWindow.mostC', 5, { code: 'bounds-crossed', least: 10, most: 5 }],
  ['plots[3].plot', '10 4', { code: 'not-in-this-form' }],
  ['plots[3].remark', 'wet', { code: 'unknown-field', names: ['remark'] }],
])('%s = %j is refused by its field', (field, value, fault) => {
  const checked = checkRecord(trialPlanSchema, withField(field, value));
  if (checked.ok) throw new Error('expected a problem');
  expect(checked.problems).toHaveLength(1);
  const [problem] = checked.problems;
  // Unknown fields are told of where they stand, by name
  expect(problem!.field).toBe('code' in fault && fault.code === 'unknown-field' ? 'plots[3]' : field);
  expect(problem).toMatchObject(fault);
  expect(fieldProblemText(problem!)).toMatch(/^[a-z].*\.$/i);
  expect(fieldProblemText(problem!)).not.toMatch(/\^|undefined|\[object|NaN /);
});

const changed = (change: (plan: TrialPlan) => void): TrialPlan => {
  const plan = samplePlan();
  change(plan);
  return plan;
};

test.each<[string, (plan: TrialPlan) => void, object]>([
  [
    'two treatments of one number',
    (p) => {
      p.treatments[3]!.number = 3;
    },
    { code: 'treatment-number-twice', treatment: 3 },
  ],
  [
    'two controls',
    (p) => {
      p.treatments[3]!.untreatedControl = 'included';
    },
    { code: 'several-untreated-controls', treatments: [1, 4] },
  ],
  [
    'sowing after the first rating',
    (p) => {
      p.trial.sowing.date = '2027-04-13';
    },
    { code: 'sowing-after-first-rating', sowingDate: '2027-04-13', firstRating: '2027-04-12', rating: 'R1' },
  ],
  [
    'an unknown treatment treated',
    (p) => {
      p.applications[0]!.treatments = [9];
    },
    { code: 'application-of-unknown-treatment', application: 'A1', treatment: 9 },
  ],
  [
    'two ratings on a day',
    (p) => {
      p.ratings[1]!.timing = { kind: 'date', date: '2027-04-12' };
    },
    { code: 'rating-date-twice', date: '2027-04-12', ratings: ['R1', 'R2'] },
  ],
  [
    'two applications of one id',
    (p) => {
      p.applications[1]!.id = 'A1';
    },
    { code: 'id-twice', list: 'applications', id: 'A1' },
  ],
  [
    'a treatment missing from a block',
    (p) => {
      p.plots[0]!.treatment = 1;
    },
    { code: 'treatment-missing-in-block', treatment: 3, block: 1 },
  ],
  [
    'an exclusion of no plot',
    (p) => {
      p.exclusions.push({
        id: 'E1',
        plot: '999',
        ratingDate: null,
        variable: null,
        reason: 'flooded',
        by: 'K',
      });
    },
    { code: 'exclusion-of-unknown-plot', exclusion: 'E1', plot: '999' },
  ],
])('a plan with %s contradicts itself', (_, change, problem) => {
  expect(planProblems(changed(change))).toContainEqual(problem);
});

test('what may be meant is asked about', () => {
  expect(
    planQueries(
      changed((plan) => {
        plan.treatments[0]!.untreatedControl = null;
      }),
    ),
  ).toEqual([{ code: 'no-untreated-control' }]);
  const onControl = changed((plan) => {
    plan.applications = [plannedApplication({ id: 'A1', treatments: [1, 2], products: [appliedProduct()] })];
    plan.treatments[2]!.name = 'Untreated control';
  });
  expect(planQueries(onControl)).toEqual([
    { code: 'application-on-control', application: 'A1', treatment: 1 },
    { code: 'name-twice', name: 'untreated control', treatments: [1, 3] },
  ]);
});
