import { expect, test } from 'vitest';
import { readPlotTable, writePlotTable } from '../../../src/core/exchange/plotTable.ts';
import { tableProblemText } from '../../../src/core/text/trial.ts';
import { samplePlan } from '../trial/samplePlan.ts';

const plan = samplePlan();
const csv = writePlotTable(plan.plots, plan.treatments);
const lines = csv.trimEnd().split('\r\n');

test('the sample trial’s plots are written and read again', () => {
  expect(lines).toHaveLength(17);
  expect(lines.slice(0, 2)).toEqual([
    'plot,treatment,block,row,column,treatment_name',
    '101,3,1,1,1,growth regulator programme after emergence',
  ]);
  const read = readPlotTable(csv);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  expect(read.value.plots).toEqual(plan.plots);
  expect(read.value.treatments).toEqual(plan.treatments.map(({ number, name }) => ({ number, name })));
});

test('as a spreadsheet may write it: semicolons, byte-order mark, other letter case, a column of its own', () => {
  const other = `\uFEFFPlot;Block;Treatment;Remark\r\n101;1;1;\r\n102;1;2;"wet, shaded"\r\n201;2;2;\r\n202;2;1;\r\n`;
  const read = readPlotTable(other);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  // without row and column each block is a row of the map
  expect(read.value.plots.map(({ plot, row, column }) => `${plot}@${row},${column}`)).toEqual([
    '101@1,1',
    '102@1,2',
    '201@2,1',
    '202@2,2',
  ]);
  expect(read.value.leftAside).toEqual(['Remark']);
});

/** Changes lines of the sample table; line 0 is the head. */
const withLines = (change: (copy: string[]) => void): string => {
  const copy = [...lines];
  change(copy);
  return copy.join('\r\n');
};

test.each<[string, string, { row: number | null; column: string | null; code: string }, string]>([
  ['nothing', '', { row: null, column: null, code: 'table-empty' }, 'The table holds nothing'],
  ['only a head', lines[0]!, { row: null, column: null, code: 'table-empty' }, 'The table holds nothing'],
  [
    'wrong columns',
    'name,dose\r\n101,1',
    { row: 1, column: 'plot', code: 'column-missing' },
    'Columns found: name and dose',
  ],
  [
    'a column twice',
    withLines((c) => {
      c[0] = 'plot,treatment,block,row,column,plot';
    }),
    { row: 1, column: 'plot', code: 'column-twice' },
    'Row 1, column "plot" stands there twice',
  ],
  [
    'a doubled plot',
    withLines((c) => {
      c[3] = '102,4,1,1,3,';
    }),
    { row: 4, column: null, code: 'plot-twice' },
    'Row 4: Plot 102 stands there twice',
  ],
  [
    'two plots in one place',
    withLines((c) => {
      c[3] = '103,4,1,1,2,';
    }),
    { row: 4, column: null, code: 'two-plots-in-one-place' },
    'Plots 102 and 103 share row 1, column 2',
  ],
  [
    'a treatment missing from a block',
    withLines((c) => {
      c.splice(3, 1);
    }),
    { row: null, column: null, code: 'treatment-missing-in-block' },
    'Block 1 has no plot of treatment 4',
  ],
  [
    'an empty cell',
    withLines((c) => {
      c[2] = ',1,1,1,2,';
    }),
    { row: 3, column: 'plot', code: 'missing' },
    'Row 3, column "plot" is missing',
  ],
  [
    'a treatment by letter',
    withLines((c) => {
      c[2] = '102,A,1,1,2,';
    }),
    { row: 3, column: 'treatment', code: 'not-a-number' },
    'is "A"; a number is wanted',
  ],
  [
    'half a block',
    withLines((c) => {
      c[2] = '102,1,1.5,1,2,';
    }),
    { row: 3, column: 'block', code: 'not-whole' },
    'is "1.5"; a whole number',
  ],
  [
    'a plot name with a blank',
    withLines((c) => {
      c[2] = '10 2,1,1,1,2,';
    }),
    { row: 3, column: 'plot', code: 'not-in-this-form' },
    'is "10 2"',
  ],
  [
    'a name that differs',
    withLines((c) => {
      c[6] = '202,4,2,2,2,something else';
    }),
    { row: 7, column: 'treatment_name', code: 'differs-from-row' },
    'but row 4 says',
  ],
  [
    'a comma too many',
    withLines((c) => {
      c[2] = '102,1,1,1,2,untreated, control';
    }),
    { row: 3, column: null, code: 'too-many-cells' },
    'needs quotes',
  ],
])('%s: refused as a whole, with row and cell', (_, text, { row, column, code }, sentence) => {
  const read = readPlotTable(text);
  if (read.ok) throw new Error('expected problems');
  const found = read.problems.find(({ fault }) => fault.code === code);
  expect(found).toMatchObject({ row, column });
  expect(tableProblemText(found!)).toContain(sentence);
});

test('every problem is told at once, not the first only', () => {
  const read = readPlotTable(
    withLines((c) => {
      c[2] = '102,A,1,1,2,';
      c[5] = ',1,2,2,1,';
    }),
  );
  expect(read.ok ? [] : read.problems.map(({ row, column }) => `${row} ${column}`)).toEqual([
    '3 treatment',
    '6 plot',
  ]);
});

test('10,000 plots are refused in words, 5,000 are read', () => {
  const many = (count: number) =>
    `plot,treatment,row,column\n${Array.from({ length: count }, (_, i) => `${i + 1},${(i % 4) + 1},${Math.floor(i / 100) + 1},${(i % 100) + 1}`).join('\n')}`;
  const refused = readPlotTable(many(10_000));
  if (refused.ok) throw new Error('expected a problem');
  expect(refused.problems).toHaveLength(1);
  expect(tableProblemText(refused.problems[0]!)).toContain(
    '10000 rows are more than a table of this kind holds (up to 5000)',
  );
  const read = readPlotTable(many(5000));
  expect(read.ok && read.value.plots.length).toBe(5000);
});

test('incomplete blocks are read where the layout is one’s own', () => {
  const text = withLines((c) => {
    c.splice(3, 1);
  });
  expect(readPlotTable(text, { design: 'own' }).ok).toBe(true);
});

test('names that a spreadsheet would run as a formula are guarded and come back', () => {
  const names = [
    { number: 1, name: '=1+1' },
    { number: 2, name: 'it\'s, "quoted"\nand broken' },
  ];
  const plots = [
    { plot: '1', block: 1, treatment: 1, row: 1, column: 1 },
    { plot: '2', block: 1, treatment: 2, row: 1, column: 2 },
  ];
  const text = writePlotTable(plots, names);
  expect(text).toContain("'=1+1");
  expect(readPlotTable(text)).toMatchObject({ ok: true, value: { plots, treatments: names } });
});
