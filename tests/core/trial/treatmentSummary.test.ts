import { expect, test } from 'vitest';
import { treatmentSummaryNotes } from '../../../src/core/text/trial.ts';
import type { Application } from '../../../src/core/trial/application.ts';
import { rateQueries } from '../../../src/core/trial/rateQueries.ts';
import { treatmentSummaries } from '../../../src/core/trial/treatmentSummary.ts';
import type { TrialPlan } from '../../../src/core/trial/trialPlan.ts';
import { appliedProduct, doneOn, plannedApplication, samplePlan } from './samplePlan.ts';

const ingredient = (name: string, modeOfActionGroup: string | null) => ({
  name,
  modeOfActionGroup,
  content: { amount: 240, unit: 'g/L' },
});

const spray = (
  id: string,
  date: string,
  parts: Parameters<typeof appliedProduct>[0],
  rest: Partial<Application> = {},
) =>
  plannedApplication({
    id,
    treatments: [4],
    timing: { kind: 'date', date },
    products: [appliedProduct(parts)],
    ...rest,
  });

function summaryOf(applications: Application[], seasonLimits: TrialPlan['seasonLimits'] = []) {
  const plan = { ...samplePlan(), applications, seasonLimits };
  return treatmentSummaries(plan).find(({ treatment }) => treatment === 4)!;
}

test('counts visits, modes of action and the longest run, in the order of days', () => {
  const summary = summaryOf([
    spray('C', '2027-05-21', { activeIngredients: [ingredient('c', '14')] }),
    spray('A', '2027-02-24', { activeIngredients: [ingredient('a', '3')] }),
    spray(
      'B',
      '2027-04-01',
      { activeIngredients: [ingredient('a', '3'), ingredient('b', '2')] },
      { progress: doneOn('2027-04-02') },
    ),
    plannedApplication({
      id: 'mow',
      treatments: [4],
      description: 'scarified',
      timing: { kind: 'date', date: '2027-04-05' },
    }),
    spray('D', '2027-06-21', { activeIngredients: [ingredient('d', null)] }),
    spray('E', '2027-04-20', { activeIngredients: [ingredient('a', '3')] }),
    spray('F', '2027-07-01', {}, { progress: { state: 'left-out', why: 'rain' } }),
  ]);
  expect(summary.applications).toBe(6);
  expect(summary.applicationsDone).toBe(1);
  expect(summary.modesOfAction).toEqual(['3', '2', '14']);
  expect(summary.withoutModeOfAction).toEqual(['d']);
  // A, B and E, with a visit without product between
  expect(summary.repeats).toEqual([{ modeOfActionGroup: '3', inARow: 3 }]);
});

test('season totals against the most the user entered, by product and by ingredient', () => {
  const limits: TrialPlan['seasonLimits'] = [
    { of: 'product', name: 'Coded Product L-31', most: { amount: 64, unit: 'fl oz/acre' } },
    { of: 'active-ingredient', name: 'a', most: { amount: 1, unit: 'kg/ha' } },
  ];
  const rate = { amount: 32, unit: 'fl oz/acre' };
  const parts = { rate, activeIngredients: [ingredient('a', '3')] };
  const twice = summaryOf([spray('A', '2027-02-24', parts), spray('B', '2027-03-24', parts)], limits);
  // 2 x 32 fl oz/acre = 4.6769781144782 L/ha (units.json), at 240 g/L = 1.12247 kg/ha
  expect(twice.totals.map(({ total, verdict }) => [Number(total!.toPrecision(9)), verdict])).toEqual([
    [4.67697811, 'within'],
    [1.12247475, 'above'],
  ]);
  expect(treatmentSummaryNotes(twice).join()).toContain(
    'a: 1.122 kg/ha in the season, above the most you entered (1 kg/ha)',
  );
  const unknown = summaryOf(
    [spray('A', '2027-02-24', parts), spray('B', '2027-03-24', { ...parts, rate: null })],
    limits,
  );
  expect(unknown.totals.map(({ verdict, without }) => [verdict, without])).toEqual([
    ['unknown', ['B']],
    ['unknown', ['B']],
  ]);
});

test('cost is the sum of what is known, and says what is not', () => {
  const summary = summaryOf([
    spray('A', '2027-02-24', { costPerHectare: 120 }),
    spray('B', '2027-03-24', { costPerHectare: 30.5, name: 'growth regulator' }),
    spray('C', '2027-04-24', { name: 'coded product L-58' }),
  ]);
  expect([summary.costPerHectare, summary.withoutCost]).toEqual([150.5, ['coded product L-58']]);
  expect(summaryOf([]).costPerHectare).toBeNull();
});

const rates = (...given: readonly (readonly [amount: number, unit: string])[]) =>
  rateQueries(
    given.map(([amount, unit], index) => spray(`A${index}`, '2027-02-24', { rate: { amount, unit } })),
  );

test('one rate ten times the others is asked about, and only that one', () => {
  expect(rates([1, 'L/ha'], [1, 'L/ha'], [10, 'L/ha'])).toEqual([
    {
      code: 'rate-unlike-others',
      application: 'A2',
      product: 'coded product L-31',
      index: 0,
      timesOthers: 10,
      others: 2,
    },
  ]);
});

test('per acre for per 1000 square feet is found through the SI value', () => {
  const [query] = rates([32, 'fl oz/acre'], [32, 'fl oz/acre'], [32, 'fl oz/1000 ft2']);
  expect(query).toMatchObject({ application: 'A2' });
  expect(query).toHaveProperty('timesOthers', expect.closeTo(43.56, 6));
});

test('of two rates far apart both are asked about; a series of doubled rates is not', () => {
  expect(rates([1, 'L/ha'], [8, 'L/ha']).map(({ application }) => application)).toEqual(['A0', 'A1']);
  expect(rates([0.5, 'L/ha'], [1, 'L/ha'], [2, 'L/ha'])).toEqual([]);
  expect(rates([1, 'L/ha'])).toEqual([]);
});

test('a weight among volumes is asked about', () => {
  expect(rates([4, 'fl oz/acre'], [4, 'oz (weight)/acre'], [4, 'fl oz/acre'])).toMatchObject([
    { code: 'rate-of-other-kind', application: 'A1', kind: 'mass-per-area', usualKind: 'volume-per-area' },
  ]);
});
