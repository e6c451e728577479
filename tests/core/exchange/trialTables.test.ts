import { expect, test } from 'vitest';
import { writePlotTable } from '../../../src/core/exchange/plotTable.ts';
import { importTables } from '../../../src/core/exchange/trialPlanImport.ts';
import {
  readApplicationTable,
  readRatingTable,
  readTreatmentTable,
  writeApplicationTable,
  writeRatingTable,
  writeTreatmentTable,
} from '../../../src/core/exchange/trialTables.ts';
import { parseTiming, writeTiming } from '../../../src/core/exchange/trialTablesTiming.ts';
import { importProblemText, tableProblemText } from '../../../src/core/text/trial.ts';
import { appliedProduct, doneOn, plannedApplication, samplePlan } from '../trial/samplePlan.ts';

test('the sample trial is set up from its tables alone', () => {
  const sample = samplePlan();
  const empty = { ...sample, treatments: [], plots: [], applications: [], ratings: [] };
  const imported = importTables(empty, {
    treatments: writeTreatmentTable(sample.treatments),
    plots: writePlotTable(sample.plots, sample.treatments),
    applications: writeApplicationTable(sample.applications),
    ratings: writeRatingTable(sample.ratings),
  });
  expect(imported).toEqual({ ok: true, value: sample });
});

test('treatments with factors', () => {
  const text =
    'Treatment,Name,Untreated control,Factor rate\r\n1,untreated,included,\r\n2,half,,0.5\r\n3,full,,1\r\n';
  const read = readTreatmentTable(text);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  expect(read.value.records.map(({ levels }) => levels)).toEqual([{}, { rate: '0.5' }, { rate: '1' }]);
  expect(readTreatmentTable(writeTreatmentTable(read.value.records))).toEqual(read);
});

const mixture = plannedApplication({
  id: 'A1',
  treatments: [2, 4],
  description: 'before emergence',
  timing: { kind: 'from-sowing', amount: 12, unit: 'days', side: 'before' },
  windowDays: { before: 2, after: 3 },
  products: [
    appliedProduct({
      rate: { amount: 1.5, unit: 'fl oz/1000 ft2' },
      activeIngredients: [
        { name: 'a', modeOfActionGroup: '3', content: null },
        { name: 'b', modeOfActionGroup: null, content: null },
      ],
      costPerHectare: 80.5,
    }),
    appliedProduct({ name: 'spreader', rate: { amount: 0.25, unit: '% v/v' }, use: 'label' }),
  ],
  carrierVolume: { amount: 2, unit: 'gal/1000 ft2' },
  equipment: 'hand boom',
  nozzle: 'flat fan 04',
  pressure: { amount: 40, unit: 'psi' },
  reEntryHours: 12,
  progress: { ...doneOn('2027-02-25', '10:30'), deviations: 'a day late, wind' } as never,
});

test('tank mixtures, timings, what is done and what was left out go there and back', () => {
  const applications = [
    mixture,
    plannedApplication({
      id: 'A2',
      timing: { kind: 'from-application', application: 'A1', amount: 3, unit: 'weeks', side: 'after' },
    }),
    plannedApplication({ id: 'A3', progress: { state: 'left-out', why: 'rain' } }),
    plannedApplication({
      id: 'A4',
      timing: { kind: 'growth-stage', stage: '21', expectedDate: '2027-05-01' },
    }),
  ];
  const text = writeApplicationTable(applications);
  expect(text.split('\r\n')).toHaveLength(7);
  expect(readApplicationTable(text)).toEqual({ ok: true, value: { records: applications, leftAside: [] } });
});

test('what the table has no columns for stays in the plan', () => {
  const plan = samplePlan();
  const full = structuredClone(mixture);
  full.products[0]!.activeIngredients[0]!.content = { amount: 240, unit: 'g/L' };
  full.temperatureWindow = { of: 'soil', leastC: 10, mostC: 21, meanOfDays: 3 };
  plan.applications = [full];
  expect(importTables(plan, { applications: writeApplicationTable([full]) })).toEqual({
    ok: true,
    value: plan,
  });
});

const HEAD = 'application,treatments,timing,product,rate,rate_unit,use,done_on';

test.each([
  ['A1,2,2027-02-30,x,1,L/ha,label,', 2, 'timing', 'is "2027-02-30". Write a day'],
  ['A1,2,sometime,x,1,L/ha,label,', 2, 'timing', 'is "sometime". Write a day'],
  ['A1,2,2027-02-24,x,1,oz/acre,label,', 2, 'rate_unit', 'an ounce of weight or a fluid ounce?'],
  ['A1,2,2027-02-24,x,1,buckets,label,', 2, 'rate_unit', 'a unit that is not known'],
  ['A1,2,2027-02-24,x,1,,label,', 2, 'rate_unit', 'is empty'],
  ['A1,2,2027-02-24,x,-1,L/ha,label,', 2, 'rate', 'more than 0 is allowed'],
  ['A1,2,2027-02-24,x,1 to 2,L/ha,label,', 2, 'rate', 'a number is wanted'],
  ['A1,2,2027-02-24,x,1,L/ha,,', 2, 'use', 'is missing'],
  ['A1,2,2027-02-24,x,1,L/ha,mine,', 2, 'use', 'choose one of label, experimental'],
  ['A1,two,2027-02-24,x,1,L/ha,label,', 2, 'treatments', 'a number is wanted'],
  ['A1,2,2027-02-24,x,1,L/ha,label,2027-02-31', 2, 'done_on', 'no day of the calendar'],
  ['A1,2,2027-02-24,x,1,L/ha,label,\r\nA1,3,,y,1,L/ha,label,', 3, 'treatments', 'but row 2 says "2"'],
  ['A1,2,2027-02-24,x,1,L/ha,label,\r\nA1,,,y,1,oz/acre,label,', 3, 'rate_unit', 'an ounce of weight'],
  [',2,2027-02-24,x,1,L/ha,label,', 2, 'application', 'is missing'],
])('applications: %s is refused with its row and column', (rows, row, column, sentence) => {
  const read = readApplicationTable(`${HEAD}\r\n${rows}\r\n`);
  if (read.ok) throw new Error('expected a problem');
  expect(read.problems.map((problem) => [problem.row, problem.column])).toEqual([[row, column]]);
  expect(tableProblemText(read.problems[0]!)).toContain(sentence);
});

test('decimal commas of a table with semicolons', () => {
  const read = readApplicationTable(
    `${HEAD.replaceAll(',', ';')}\r\nA1;2|3;2027-02-24;x;1,5;L/ha;label;\r\n`.replace('2|3', '2'),
  );
  expect(read.ok && read.value.records[0]!.products[0]!.rate).toEqual({ amount: 1.5, unit: 'L/ha' });
});

test('tables that do not go together change nothing', () => {
  const plan = samplePlan();
  const before = structuredClone(plan);
  const late = importTables(plan, { ratings: 'rating,timing\r\nR1,2027-03-01\r\n' });
  expect(late.ok ? [] : late.problems.map(importProblemText)).toEqual([
    'Sowing on 8 March 2027 lies after the first rating "R1" on 1 March 2027. Correct one of the two dates.',
  ]);
  const twice = importTables(plan, { ratings: 'rating,timing\r\nR1,2027-04-12\r\nR1,2027-05-12\r\n' });
  expect(twice.ok ? [] : twice.problems.map(importProblemText)).toEqual([
    'Table of rating dates. Row 3, column "rating" is "R1", which row 2 has already. Each may stand once.',
  ]);
  const unknown = importTables(plan, { applications: `${HEAD}\r\nA1,9,2027-02-24,x,1,L/ha,label,\r\n` });
  expect(unknown.ok ? [] : unknown.problems.map(({ table }) => table)).toEqual([null]);
  expect(plan).toEqual(before);
});

test('a table of plots brings treatments that were not there', () => {
  const plan = { ...samplePlan(), treatments: [], applications: [] };
  const read = importTables(plan, { plots: 'plot,block,treatment\n1,1,7\n2,1,8\n' });
  expect(read.ok && read.value.treatments.map(({ number, name }) => [number, name])).toEqual([
    [7, '7'],
    [8, '8'],
  ]);
});

test.each([
  ['2027-04-12', { kind: 'date', date: '2027-04-12' }],
  ['12 days before sowing', { kind: 'from-sowing', amount: 12, unit: 'days', side: 'before' }],
  [
    '3 Weeks  after application A2',
    { kind: 'from-application', application: 'A2', amount: 3, unit: 'weeks', side: 'after' },
  ],
  ['at sowing', { kind: 'from-sowing', amount: 0, unit: 'days', side: 'after' }],
  ['stage 21', { kind: 'growth-stage', stage: '21', expectedDate: null }],
  [
    'growth stage 13-21 expected 2027-05-01',
    { kind: 'growth-stage', stage: '13-21', expectedDate: '2027-05-01' },
  ],
])('the timing "%s"', (written, timing) => {
  const read = parseTiming(written);
  expect(read).toEqual(timing);
  expect(parseTiming(writeTiming(read!))).toEqual(read);
});

test.each([
  '2027-02-30',
  '3 months after sowing',
  'after sowing',
  '-3 days after sowing',
  'stage 21 expected 2027-02-30',
  '',
])('"%s" is no timing', (written) => {
  expect(parseTiming(written)).toBeNull();
});

test('rating dates with windows', () => {
  const read = readRatingTable(
    'rating,timing,window_before,window_after,done_on\nR1,5 weeks after sowing,1,2,2027-04-12\n',
  );
  expect(read).toMatchObject({
    ok: true,
    value: { records: [{ id: 'R1', windowDays: { before: 1, after: 2 }, doneOn: '2027-04-12' }] },
  });
});
