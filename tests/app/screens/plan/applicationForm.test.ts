import { expect, test } from 'vitest';
import { numberOf } from '../../../../src/app/components/formFields.ts';
import { applicationOf, EMPTY_PRODUCT, formOf } from '../../../../src/app/screens/plan/applicationForm.ts';
import { setAt, valueAt } from '../../../../src/app/screens/plan/planPath.ts';
import { type Application, applicationSchema } from '../../../../src/core/trial/application.ts';
import { checkRecord } from '../../../../src/core/trial/checkRecord.ts';
import { appliedProduct, plannedApplication, samplePlan } from '../../../core/trial/samplePlan.ts';

const full: Application = plannedApplication({
  id: 'A2',
  treatments: [3, 4],
  products: [
    appliedProduct({
      rate: { amount: 1.5, unit: 'fl oz/1000 ft2' },
      costPerHectare: 210,
      activeIngredients: [
        { name: 'first', modeOfActionGroup: '9', content: { amount: 240, unit: 'g/L' } },
        { name: 'second', modeOfActionGroup: null, content: null },
      ],
    }),
  ],
  timing: { kind: 'from-application', application: 'A1', amount: 3, unit: 'weeks', side: 'after' },
  windowDays: { before: 1, after: 4 },
  temperatureWindow: { of: 'soil', leastC: 10, mostC: 16.5, meanOfDays: 5 },
  carrierVolume: { amount: 400, unit: 'L/ha' },
  pressure: { amount: 2, unit: 'bar' },
  equipment: 'hand boom',
  nozzle: 'flat fan',
  reEntryHours: 12,
  progress: {
    state: 'done',
    date: '2027-04-01',
    finishedAt: '09:30',
    by: 'K',
    weather: {
      airTemperatureC: 14,
      soilTemperatureC: null,
      relativeHumidityPercent: 80,
      wind: { amount: 2, unit: 'm/s' },
      cloudPercent: 0,
      notes: 'kept though the form does not show it',
    },
    deviations: 'none',
  },
});

test.each<[string, Application]>([
  ['with everything', full],
  ['bare', plannedApplication({ id: 'A1' })],
  ['left out', { ...full, progress: { state: 'left-out', why: 'wind' }, temperatureWindow: null }],
  ['by growth stage', { ...full, timing: { kind: 'growth-stage', stage: '21', expectedDate: null } }],
])('an application comes back from its form as it was: %s', (_, application) => {
  const record = applicationOf(formOf(application, ''), application);
  expect(checkRecord(applicationSchema, record)).toEqual({ ok: true, value: application });
});

test('nothing is made up: what is missing or no number is told by its field', () => {
  const form = {
    ...formOf(null, 'A1'),
    description: 'spray',
    treatments: [2],
    date: '2027-04-01',
    windowAfter: 'some',
    products: [{ ...EMPTY_PRODUCT, name: 'coded product', rate: 'a lot', rateUnit: 'L/ha' }],
  };
  const checked = checkRecord(applicationSchema, applicationOf(form, null));
  expect(checked.ok ? [] : checked.problems.map(({ field, code }) => [field, code])).toEqual([
    ['products[0].rate.amount', 'wrong-kind'],
    ['products[0].use', 'missing'],
    ['windowDays.after', 'wrong-kind'],
  ]);
});

test('a field is found by the member of the list it belongs to, and set without touching the rest', () => {
  const plan = samplePlan();
  const path = ['treatments', { by: 'number', is: 3 }, 'name'] as const;
  expect(valueAt(plan, path)).toBe('growth regulator programme after emergence');
  const changed = setAt(plan, path, 'growth regulator');
  expect(valueAt(changed, path)).toBe('growth regulator');
  expect(changed.treatments[0]).toBe(plan.treatments[0]);
  expect(setAt(plan, ['treatments', { by: 'number', is: 99 }, 'name'], 'x')).toEqual(plan);
});

test.each<[string, unknown]>([
  ['', null],
  [' 12,5 ', 12.5],
  ['.5', 0.5],
  ['-3', -3],
  ['1e3', 1000],
  ['12 mm', '12 mm'],
  ['1,000.5', '1,000.5'],
  ['NaN', 'NaN'],
])('"%s" as a number', (typed, expected) => {
  expect(numberOf(typed)).toBe(expected);
});
