import { expect, test } from 'vitest';
import { lastApplicationText, temperatureVerdictText } from '../../../src/core/text/trial.ts';
import { lastApplication } from '../../../src/core/trial/reEntry.ts';
import { trialCalendar } from '../../../src/core/trial/trialCalendar.ts';
import { meanTemperature, type WeatherDay } from '../../../src/core/trial/weather.ts';
import { appliedProduct, doneOn, plannedApplication, samplePlan } from './samplePlan.ts';

const windowDays = { before: 2, after: 3 };
const plan = {
  ...samplePlan(),
  applications: [
    plannedApplication({ id: 'A', timing: { kind: 'date', date: '2027-04-10' }, windowDays }),
    plannedApplication({ id: 'B', timing: { kind: 'growth-stage', stage: '21', expectedDate: null } }),
    plannedApplication({ id: 'C', progress: doneOn('2027-03-01') }),
    plannedApplication({ id: 'D', progress: { state: 'left-out', why: 'rain' } }),
  ],
};

test.each([
  ['2027-04-07', 'coming', 3],
  ['2027-04-08', 'in-window', 2],
  ['2027-04-10', 'due', 0],
  ['2027-04-13', 'in-window', -3],
  ['2027-04-14', 'overdue', -4],
])('on %s the application of 10 April is %s', (today, state, inDays) => {
  const entry = trialCalendar(plan, today).find(({ id }) => id === 'A');
  expect(entry).toMatchObject({ state, inDays, firstDay: '2027-04-08', lastDay: '2027-04-13' });
});

test('entries come in the order of days, those without a day last', () => {
  const calendar = trialCalendar(plan, '2027-04-12');
  expect(calendar.map(({ id, state }) => `${id} ${state}`)).toEqual([
    'C done',
    'A in-window',
    'R1 due',
    'R2 coming',
    'R3 coming',
    'R4 coming',
    'B waiting',
    'D left-out',
  ]);
});

const day = (date: string, soilC: number | null): WeatherDay => ({
  day: date,
  airC: null,
  airLeastC: 4,
  airMostC: 14,
  soilC,
  rainMm: null,
});
const weather = [
  day('2027-04-08', 11),
  day('2027-04-09', 12),
  day('2027-04-10', 16),
  day('2027-04-11', null),
];

test('means of temperature need every one of their days', () => {
  expect(meanTemperature(weather, 'soil', '2027-04-10', 3)).toBe(13);
  expect(meanTemperature(weather, 'soil', '2027-04-10', 4)).toBeNull();
  expect(meanTemperature(weather, 'soil', '2027-04-11', 2)).toBeNull();
  expect(meanTemperature(weather, 'air', '2027-04-11', 4)).toBe(9);
});

test.each([
  ['2027-04-10', 10, 15, 'inside', '2027-04-10'],
  ['2027-04-10', 14, 15, 'below', '2027-04-10'],
  // no soil reading for the 11th: yesterday's mean, and its day is named
  ['2027-04-11', 5, 12, 'above', '2027-04-10'],
])('on %s the window %i to %i is judged: %s', (today, leastC, mostC, verdict, on) => {
  const windowed = plannedApplication({
    id: 'A',
    timing: { kind: 'date', date: '2027-04-10' },
    windowDays,
    temperatureWindow: { of: 'soil', leastC, mostC, meanOfDays: 3 },
  });
  const entry = trialCalendar({ ...plan, applications: [windowed] }, today, weather).find(
    ({ id }) => id === 'A',
  );
  expect(entry!.temperature).toMatchObject({ verdict, day: on, meanC: 13 });
  expect(temperatureVerdictText(entry!.temperature!)).toContain(
    `13 °C on 10 April 2027, ${verdict} your window`,
  );
  const dry = trialCalendar({ ...plan, applications: [windowed] }, today).find(({ id }) => id === 'A');
  expect(dry!.temperature).toMatchObject({ verdict: 'unknown' });
});

const sprayed = (id: string, date: string, finishedAt: string | null, reEntryHours: number | null) =>
  plannedApplication({ id, products: [appliedProduct()], progress: doneOn(date, finishedAt), reEntryHours });

test('before stepping on a plot: the application that keeps people off longest', () => {
  const applications = [sprayed('A', '2027-04-09', '17:30', 48), sprayed('B', '2027-04-10', '09:00', 4)];
  expect(lastApplication({ ...plan, applications }, [2], '2027-04-10')).toMatchObject({
    application: 'A',
    enterFrom: { day: '2027-04-11', time: '17:30' },
  });
  expect(lastApplication({ ...plan, applications }, [3], '2027-04-10')).toBeNull();
  expect(lastApplication({ ...plan, applications }, [2], '2027-04-08')).toBeNull();
});

test('without a clock time hours count from the end of the day; without hours the label has to be asked', () => {
  const untimed = lastApplication(
    { ...plan, applications: [sprayed('A', '2027-04-09', null, 12)] },
    [2],
    '2027-04-10',
  );
  expect(untimed!.enterFrom).toEqual({ day: '2027-04-10', time: '12:00' });
  const unknown = [sprayed('A', '2027-04-09', null, 48), sprayed('B', '2027-04-10', '09:00', null)];
  const last = lastApplication({ ...plan, applications: unknown }, [2], '2027-04-10');
  expect(last).toMatchObject({ application: 'B', enterFrom: null });
  expect(lastApplicationText(last)).toContain('No re-entry time was entered: read the label');
});
