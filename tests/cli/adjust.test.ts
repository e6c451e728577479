import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { afterAll, expect, test } from 'vitest';
import { addAdjustCommand } from '../../src/cli/adjust.ts';
import { referenceValues } from '../support/referenceValues.ts';
import { runCommand } from '../support/runCommand.ts';

const folder = mkdtempSync(`${tmpdir()}/adjust-`);
afterAll(() => rmSync(folder, { recursive: true }));

/** Olofsson et al. 2014, Table 8. */
const [olofsson] = referenceValues<{
  cases: {
    classes: string[];
    matrix_rows_map_columns_reference: number[][];
    expected: Record<string, number[]> & { weights: number[]; overall_accuracy: number };
  }[];
}>('area-estimation.json').cases;
const base = {
  type: 'reference-counts',
  version: 1,
  classes: olofsson!.classes,
  mappedFraction: olofsson!.expected.weights,
  counts: olofsson!.matrix_rows_map_columns_reference,
};

function run(content: unknown, ...args: string[]) {
  writeFileSync(`${folder}/counts.json`, typeof content === 'string' ? content : JSON.stringify(content));
  return runCommand(addAdjustCommand, ['adjust', `${folder}/counts.json`, ...args]);
}

test('published case, as JSON and as a table', async () => {
  const { output } = await run(base, '--json', `${folder}/out.json`);
  const document = JSON.parse(readFileSync(`${folder}/out.json`, 'utf8'));
  expect(document).toMatchObject({ type: 'adjusted-cover', version: 1, classes: base.classes });
  const { expected } = olofsson!;
  for (const [field, key] of [
    ['adjustedFraction', 'area_proportion'],
    ['standardError', 'area_proportion_se'],
    ['usersAccuracy', 'users_accuracy'],
    ['usersStandardError', 'users_se'],
    ['producersAccuracy', 'producers_accuracy'],
    ['producersStandardError', 'producers_se'],
  ] as const) {
    expected[key]!.forEach((value, i) => {
      expect(document[field][i], `${field} ${i}`).toBeCloseTo(value, 10);
    });
  }
  expect(document.overallAccuracy).toBeCloseTo(expected.overall_accuracy, 10);
  expect(document.low[0]).toBeCloseTo(
    expected.area_proportion![0]! - 1.9599639845 * expected.area_proportion_se![0]!,
    10,
  );
  expect(output).toContain('deforestation');
  expect(output).toContain((100 * expected.area_proportion![0]!).toFixed(2));
  expect((await run(base, '--json', '-')).output).toBe(readFileSync(`${folder}/out.json`, 'utf8'));
});

test('a class without points: null with a sentence', async () => {
  const counts = base.counts.map((row, i) => (i === 1 ? [0, 0, 0, 0] : row));
  const document = JSON.parse((await run({ ...base, counts }, '--json', '-')).output);
  expect(document.adjustedFraction).toEqual([null, null, null, null]);
  expect(document.notes[0]).toMatch(/No points were judged where the mask says forest_gain/);
});

test.each([
  ['not JSON', '{', /not valid JSON/],
  ['another type', { ...base, type: 'comparison' }, /"type" is "comparison"/],
  ['a newer version', { ...base, version: 2 }, /version 2; this program reads up to 1/],
  [
    'percentages',
    { ...base, mappedFraction: [2, 1.5, 32, 64.5] },
    /"mappedFraction\[0\]" is 2; allowed: .*0 to 1/,
  ],
  ['shares that do not add', { ...base, mappedFraction: [0.1, 0.1, 0.1, 0.1] }, /adds to 0\.4/],
  ['a row too few', { ...base, counts: base.counts.slice(1) }, /"counts" has 3 entries, there are 4 classes/],
  [
    'half a point',
    { ...base, counts: [[0.5, 0, 0, 0], ...base.counts.slice(1)] },
    /"counts\[0\]\[0\]" is 0\.5/,
  ],
  ['no points', { ...base, counts: base.counts.map((row) => row.map(() => 0)) }, /All counts are 0/],
  ['doubled classes', { ...base, classes: ['a', 'a', 'b', 'c'] }, /"classes"/],
])('%s is refused', async (_, content, message) => {
  expect((await run(content)).refusal).toMatch(message);
});
