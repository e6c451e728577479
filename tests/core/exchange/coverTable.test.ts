import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  COVER_COLUMNS,
  type CoverRow,
  readCoverTable,
  writeCoverTable,
} from '../../../src/core/exchange/coverTable.ts';
import { coverTableProblemText } from '../../../src/core/text/cli.ts';

const row: CoverRow = {
  photo: '2027-04-12_101.jpg',
  plot: '101',
  quadrat: null,
  block: '1',
  treatment: 'L-31, early',
  ratingDate: '2027-04-12',
  classId: 'weedy-grass',
  pixels: 33894,
  coverPercent: 4.51921,
  coverLow: null,
  coverHigh: null,
  method: 'automatic',
  model: 'start-1',
  flags: ['uncertain', 'no-ground'],
};

describe('writing', () => {
  test('columns in their order, commas quoted, CRLF, three decimals', () => {
    expect(writeCoverTable([row])).toBe(
      'photo,plot,quadrat,block,treatment,rating_date,class,pixels,cover_percent,cover_low,cover_high,method,model,flags\r\n' +
        '2027-04-12_101.jpg,101,,1,"L-31, early",2027-04-12,weedy-grass,33894,4.519,,,automatic,start-1,uncertain;no-ground\r\n',
    );
  });

  test('a table without rows has its head', () => {
    expect(writeCoverTable([])).toBe(`${COVER_COLUMNS.join(',')}\r\n`);
  });

  test.each(['=1+1', '+cmd', '-2+3', '@SUM(A1)', '\t=1', '＝1'])(
    '%j is no formula in a spreadsheet',
    (plot) => {
      const [, cells] = writeCoverTable([{ ...row, plot }]).split('\r\n');
      expect(cells).toMatch(/^[^,]+,"?'/);
    },
  );
});

test('any text comes back as it was', () => {
  const text = fc.string({ unit: 'grapheme', minLength: 1 }).filter((t) => t.trim() === t);
  fc.assert(
    fc.property(text, fc.constantFrom('', '=', "'=", "''+", '-'), (rest, start) => {
      const plot = start + rest;
      expect(readCoverTable(writeCoverTable([{ ...row, plot }])).rows[0]?.plot).toBe(plot);
    }),
    { seed: 1, numRuns: 500 },
  );
});

describe('reading', () => {
  test('what was written', () => {
    const { rows, problems } = readCoverTable(writeCoverTable([row]));
    expect(problems).toEqual([]);
    expect(rows).toEqual([{ row: 2, ...row, coverPercent: 4.519 }]);
  });

  test('any tidy table: columns in any order, others left aside, byte-order mark, blank lines', () => {
    const { rows, problems } = readCoverTable(
      '\uFEFFTreatment,cover_percent,note,Class,plot\n1,12.5,wet,weedy-grass,101\n\n2,NA,,weedy-grass,102\n',
    );
    expect(problems).toEqual([]);
    expect(rows).toMatchObject([
      { row: 2, treatment: '1', coverPercent: 12.5, classId: 'weedy-grass', plot: '101', method: null },
      { row: 4, treatment: '2', coverPercent: null, plot: '102' },
    ]);
  });

  test('semicolons with decimal commas', () => {
    expect(readCoverTable('class;cover_percent\nryegrass;12,5\n').rows).toMatchObject([
      { coverPercent: 12.5 },
    ]);
  });

  test('a decimal comma between commas is no number', () => {
    expect(readCoverTable('class,cover_percent\nryegrass,"12,5"\n').problems).toMatchObject([
      { code: 'bad-cell', row: 2, column: 'cover_percent', met: '12,5' },
    ]);
  });

  test.each([
    ['cover_percent', '101'],
    ['cover_percent', '-1'],
    ['cover_percent', 'half'],
    ['cover_percent', '0x10'],
    ['pixels', '1.5'],
    ['rating_date', '2027-02-29'],
    ['rating_date', '12/04/2027'],
    ['method', 'guessed'],
    ['class', ''],
  ])('%s "%s" leaves its row out, names it and keeps the rest', (column, met) => {
    const columns = ['class', 'cover_percent', 'pixels', 'rating_date', 'method'];
    const good = ['ryegrass', '50', '100', '2027-04-12', 'automatic'];
    const bad = good.map((cell, i) => (columns[i] === column ? met : cell));
    const { rows, problems } = readCoverTable([columns, good, bad, good].map((r) => r.join(',')).join('\n'));
    expect(rows.map((r) => r.row)).toEqual([2, 4]);
    expect(problems).toMatchObject([{ code: 'bad-cell', row: 3, column, met }]);
    expect(coverTableProblemText(problems[0]!)).toContain(`Row 3, column "${column}": "${met}"`);
  });

  test('a column that is missing or there twice is named', () => {
    expect(readCoverTable('class,cover\nryegrass,50\n').problems).toEqual([
      { code: 'column-missing', column: 'cover_percent', found: ['class', 'cover'] },
    ]);
    expect(readCoverTable('class,cover_percent,class\na,1,b\n').problems).toEqual([
      { code: 'column-twice', column: 'class' },
    ]);
    expect(readCoverTable('').problems).toHaveLength(2);
  });
});
