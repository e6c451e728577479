import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readCoverTable } from '../../../src/core/exchange/coverTable.ts';
import { guardFormula, readCsv, unguardFormula, writeCsv } from '../../../src/core/exchange/csv.ts';
import { dataPackageTables } from '../../../src/core/exchange/dataPackageTables.ts';
import { readObservationTable } from '../../../src/core/exchange/observationTable.ts';
import { readPlotTable } from '../../../src/core/exchange/plotTable.ts';
import {
  readApplicationTable,
  readRatingTable,
  readTreatmentTable,
} from '../../../src/core/exchange/trialTables.ts';
import { readWeatherTable } from '../../../src/core/exchange/weatherTable.ts';
import { packagedSample } from '../../support/packagedSample.ts';

const READERS: Readonly<Record<string, (text: string) => unknown>> = {
  cover: (text) => readCoverTable(text),
  observations: (text) => readObservationTable(text, { valueColumn: 'cover_percent' }),
  plots: (text) => readPlotTable(text),
  treatments: readTreatmentTable,
  applications: readApplicationTable,
  ratings: readRatingTable,
  weather: readWeatherTable,
};

const written = new Map(
  dataPackageTables(packagedSample()).map(({ name, csv }) => [name as string, csv.slice(0, 1500)]),
);
const WEATHER = 'date,air_c,rain_mm\r\n2027-05-01,12.5,0\r\n2027-05-02,11,3.2\r\n';
const sampleOf = (reader: string): string =>
  reader === 'weather' ? WEATHER : (written.get(reader === 'observations' ? 'cover' : reader) ?? '');

/** A table with pieces of it changed, doubled, lost, or replaced by what breaks readers. */
const mutated = (text: string) =>
  fc
    .array(
      fc.record({
        at: fc.nat(text.length),
        cut: fc.nat(40),
        put: fc.oneof(
          fc.constantFrom(
            '"',
            '""',
            ',',
            ';',
            '\t',
            '\r',
            '\n',
            '\0',
            '\uFEFF',
            "'=1",
            '=cmd()',
            '1e309',
            '-0',
            'NaN',
            '__proto__',
            '２',
          ),
          fc.string({ maxLength: 8 }),
        ),
      }),
      { minLength: 1, maxLength: 5 },
    )
    .map((steps) =>
      steps.reduce((now, { at, cut, put }) => now.slice(0, at) + put + now.slice(at + cut), text),
    );

describe('tables that were tampered with', () => {
  it.each(Object.keys(READERS))('%s: read, or refused with problems, never a crash', (reader) => {
    const read = READERS[reader]!;
    let answers = 0;
    fc.assert(
      fc.property(fc.oneof(mutated(sampleOf(reader)), fc.string()), (text) => {
        expect(read(text)).toBeTypeOf('object');
        answers += 1;
      }),
      { numRuns: 300, seed: 7 },
    );
    expect(answers).toBe(300);
  });

  it('no text is run as a formula, and every text comes back', () => {
    fc.assert(
      fc.property(fc.array(fc.string(), { minLength: 1, maxLength: 4 }), (cells) => {
        const csv = writeCsv(
          cells.map((_, index) => `c${index}`),
          [['x', ...cells.slice(1)], cells],
        );
        const rows = readCsv(csv).rows.map((row) => row.cells);
        if (cells.some((cell) => cell.trim() !== '')) expect(rows.at(-1)).toEqual(cells);
        for (const cell of cells) {
          expect(unguardFormula(guardFormula(cell))).toBe(cell);
          if (!/^-?\d+(\.\d+)?$/.test(cell)) expect(guardFormula(cell)).not.toMatch(/^[=+\-@\t\r]/);
        }
      }),
      { numRuns: 500, seed: 8 },
    );
  });
});
