import { expect, test } from 'vitest';
import {
  type ObservationReading,
  readObservationTable,
  tableNotes,
} from '../../../src/core/exchange/observationTable.ts';
import { observationProblemText } from '../../../src/core/text/statistics.ts';

function table(reading: ObservationReading) {
  if (!reading.ok) throw new Error(reading.problems.map(observationProblemText).join('\n'));
  return reading.table;
}

test('columns in any order and case, semicolons with decimal commas, byte-order mark, NA', () => {
  const text =
    '\uFEFFTreatment;Cover_Percent;PLOT;rating_date;class\r\nA;12,5;1;2027-04-12;w\r\nB;NA;2;2027-04-12;w\r\n\r\n';
  const read = table(readObservationTable(text));
  expect(read.observations).toEqual([
    {
      plot: '1',
      treatment: 'A',
      block: null,
      row: null,
      column: null,
      factors: {},
      ratingDate: '2027-04-12',
      classId: 'w',
      value: 12.5,
    },
  ]);
  expect(read.emptyValues).toBe(1);
});

test('cells in quotes may hold commas and line breaks; a guarded formula is the text it was', () => {
  const text =
    'plot,treatment,rating_date,class,cover_percent\n"1","A, ""early""\nrow",2027-04-12,w,3\n2,\'=B,2027-04-12,w,4\n';
  expect(table(readObservationTable(text)).observations.map(({ treatment }) => treatment)).toEqual([
    'A, "early"\nrow',
    '=B',
  ]);
});

test('a plot whose name differs in letter case only is the same plot', () => {
  const text = 'plot,treatment,rating_date,class,cover_percent\na1,A,2027-04-12,w,3\nA1,A,2027-04-12,w,5\n';
  const read = table(readObservationTable(text));
  expect(read.observations).toHaveLength(1);
  expect(read.observations[0]!.value).toBe(4);
  expect(tableNotes(read)).toEqual([{ code: 'subsamples-averaged', values: { fewest: 2, most: 2 } }]);
});

test('flags of the measurement are counted and told', () => {
  const text =
    'plot,treatment,rating_date,class,cover_percent,flags\n1,A,2027-04-12,w,3,\n2,B,2027-04-12,w,4,no-second-kind;unlike-training\n3,B,2027-04-12,w,5,no-second-kind\n';
  expect(tableNotes(table(readObservationTable(text)))).toEqual([
    { code: 'flagged-rows', values: { count: 2, flags: ['no-second-kind 2', 'unlike-training 1'] } },
  ]);
});

test('a hundred thousand rows in reasonable time, with the row of a problem at the end', () => {
  const rows = ['plot,block,treatment,rating_date,class,cover_percent'];
  for (let i = 0; i < 99_999; i += 1) {
    rows.push(`${i % 400},${i % 4},T${(i % 400) >> 2},2027-04-12,weedy-grass,${(i * 37) % 101}`);
  }
  rows.push('7,3,T1,2027-04-12,weedy-grass,105');
  const started = performance.now();
  const reading = readObservationTable(rows.join('\n'));
  expect(reading).toMatchObject({
    ok: false,
    count: 1,
    problems: [{ code: 'out-of-scale', row: 100_001, column: 'cover_percent', met: '105' }],
  });
  // a bound against a blow-up, not a measurement
  expect(performance.now() - started).toBeLessThan(60_000);
}, 90_000);
