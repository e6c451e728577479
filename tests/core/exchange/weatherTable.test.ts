import { expect, test } from 'vitest';
import { readWeatherTable } from '../../../src/core/exchange/weatherTable.ts';
import { tableProblemText } from '../../../src/core/text/trial.ts';

test('days come in order, in degrees Celsius and millimetres, whatever the table has', () => {
  const read = readWeatherTable('date,soil_f,air_c,rain_in\n2027-04-13,50,11.5,0\n2027-04-12,59,,0.5\n');
  expect(read).toEqual({
    ok: true,
    value: [
      {
        day: '2027-04-12',
        airC: null,
        airLeastC: null,
        airMostC: null,
        soilC: expect.closeTo(15, 12),
        rainMm: expect.closeTo(12.7, 12),
      },
      {
        day: '2027-04-13',
        airC: 11.5,
        airLeastC: null,
        airMostC: null,
        soilC: expect.closeTo(10, 12),
        rainMm: 0,
      },
    ],
  });
});

test('semicolons and decimal commas', () => {
  const read = readWeatherTable('Date;Air least C;Air most C\r\n2027-04-12;4,5;14,5\r\n');
  expect(read).toMatchObject({
    ok: true,
    value: [{ airLeastC: 4.5, airMostC: 14.5, airC: null, rainMm: null }],
  });
});

test.each([
  ['day,air\n2027-04-12,3', 'Column', 1, 'date'],
  ['date,wind\n2027-04-12,3', 'is missing. Columns found: date and wind', 1, 'air_c'],
  ['date,air_c\n12.04.2027,3', 'no day of the calendar', 2, 'date'],
  ['date,air_c\n,3', 'is missing', 2, 'date'],
  ['date,air_c\n2027-04-12,3\n2027-04-12,4', 'which row 2 has already', 3, 'date'],
  ['date,air_c\n2027-04-12,warm', 'a number is wanted', 2, 'air_c'],
  ['date,air_c\n2027-04-12,72', 'up to 60 is allowed', 2, 'air_c'],
  ['date,air_f\n2027-04-12,172', 'up to 140 is allowed', 2, 'air_f'],
  ['date,rain_mm\n2027-04-12,-1', '0 or more is allowed', 2, 'rain_mm'],
  ['date,air_least_c,air_most_c\n2027-04-12,15,5', 'bounds crossed', 2, 'air_most_c'],
])('%j is refused with its cell', (text, sentence, row, column) => {
  const read = readWeatherTable(text);
  if (read.ok) throw new Error('expected a problem');
  expect(read.problems[0]).toMatchObject({ row, column });
  expect(tableProblemText(read.problems[0]!).replace(/^Row 1, column/, 'Column')).toContain(sentence);
});
