import { describe, expect, it } from 'vitest';
import { readCsv } from '../../../src/core/exchange/csv.ts';
import { dataPackageDescriptor, type PackageTable } from '../../../src/core/exchange/dataPackage.ts';
import { dataPackageTables } from '../../../src/core/exchange/dataPackageTables.ts';
import { photoPoint } from '../../../src/core/geometry/points.ts';
import { RESULTS_CAUTION } from '../../../src/core/text/statisticsCommands.ts';
import fields from '../../reference-values/exchange-fields.json' with { type: 'json' };
import { packagedPhotos, packagedSample } from '../../support/packagedSample.ts';
import { samplePlan } from '../trial/samplePlan.ts';

/** The sample trial with something in every table. */
function everything(): PackageTable[] {
  const photos = packagedPhotos();
  const [first, ...rest] = photos;
  const points = {
    ...first!.figures[0]!,
    method: 'points' as const,
    measuredPixels: 50,
    cover: first!.figures[0]!.cover.map((share) => ({
      ...share,
      pixels: 10,
      lowFraction: 0.01,
      highFraction: 0.3,
    })),
  };
  const counted = { ...first!, figures: [...first!.figures, points] };
  const sample = packagedSample({}, samplePlan(), [counted, ...rest]);
  const call = {
    pointId: 1,
    observer: 'K',
    classId: null,
    at: photoPoint(10.5, 20),
    calledAt: '2027-04-13T08:00:00.000Z',
    gapRule: { kind: 'every-pixel' } as const,
  };
  return dataPackageTables({
    ...sample,
    calls: [{ photo: counted, pointSetId: 'set', calls: [call] }],
    scores: [{ variable: 'turf-quality', plot: '101', ratingDate: '2027-04-12', value: null, rater: '=K' }],
    weather: [{ day: '2027-04-12', airC: -0.5, airLeastC: null, airMostC: null, soilC: null, rainMm: 0 }],
  });
}

const descriptorOf = (tables: readonly PackageTable[]) =>
  JSON.parse(
    dataPackageDescriptor(
      tables,
      new Map(tables.map(({ name }) => [name, { bytes: 1, sha256: 'a'.repeat(64) }])),
      {
        name: 'k7qf3m-tables',
        trial: 'Outfield east',
        createdAt: '2027-06-01T12:00:00.000Z',
        softwareVersion: '0.1.0',
      },
    ),
  );

describe('tables as a data package', () => {
  it('has every table of a trial, each column described with its type and, where it has one, its unit', () => {
    const tables = everything();
    expect(tables.map(({ name }) => name)).toEqual([
      'cover',
      'plots',
      'treatments',
      'applications',
      'ratings',
      'scores',
      'points',
      'agreement',
      'observations',
      'comparison',
      'weather',
    ]);
    for (const resource of descriptorOf(tables).resources) {
      const { columns } = tables.find(({ name }) => name === resource.name)!;
      expect(resource.schema.fields.map(({ name }: { name: string }) => name)).toEqual(columns);
      for (const field of resource.schema.fields) expect(field.description.length).toBeGreaterThan(3);
    }
    const cover = descriptorOf(tables).resources[0].schema.fields.find(
      ({ name }: { name: string }) => name === 'cover_percent',
    );
    expect(cover).toMatchObject({
      type: 'number',
      unit: '%',
      description: expect.stringContaining('Unit: %'),
    });
  });

  // Data Package standard 2.0, read as text; properties and types as in reference-values/exchange-fields.json
  it('keeps to the words of the standard', () => {
    const descriptor = descriptorOf(everything());
    expect(descriptor.name).toMatch(/^[-a-z0-9._/]+$/);
    expect(descriptor.description).toContain(RESULTS_CAUTION);
    const { table_schema: standard } = fields;
    const names = new Set(descriptor.resources.map(({ name }: { name: string }) => name));
    expect(names.size).toBe(descriptor.resources.length);
    for (const { schema, path, type, hash } of descriptor.resources) {
      expect(type).toBe('table');
      expect(path).toMatch(/^[a-z]+\.csv$/);
      expect(hash).toMatch(/^sha256:[0-9a-f]{64}$/);
      for (const key of Object.keys(schema)) expect(['$schema', ...standard.descriptor]).toContain(key);
      const columns = schema.fields.map(({ name }: { name: string }) => name);
      expect(new Set(columns).size).toBe(columns.length);
      for (const { unit: _unit, ...field } of schema.fields) {
        for (const key of Object.keys(field)) expect(standard.field).toContain(key);
        expect(standard.types).toContain(field.type);
        for (const rule of Object.keys(field.constraints ?? {})) expect(standard.constraints).toContain(rule);
      }
      for (const key of schema.primaryKey ?? []) expect(columns).toContain(key);
      for (const { fields: own, reference } of schema.foreignKeys ?? []) {
        expect(columns).toEqual(expect.arrayContaining(own));
        expect(names).toContain(reference.resource);
      }
    }
  });

  it('has rows that fit: keys tell them apart, numbers are numbers, nothing runs as a formula', () => {
    const tables = everything();
    const { resources } = descriptorOf(tables);
    for (const { name, csv, columns, primaryKey } of tables) {
      const { rows } = readCsv(csv);
      const schema = resources.find((resource: { name: string }) => resource.name === name).schema;
      const keys = rows.map(({ cells }) => primaryKey.map((key) => cells[columns.indexOf(key)]).join('\n'));
      if (primaryKey.length > 0) {
        expect(new Set(keys).size, name).toBe(rows.length);
        for (const key of keys) expect(key.split('\n'), name).not.toContain('');
      }
      for (const [index, { type, constraints }] of schema.fields.entries()) {
        for (const { cells } of rows) {
          const cell = cells[index]!;
          if (cell === '' || (type !== 'number' && type !== 'integer')) continue;
          expect(Number(cell), `${name} ${columns[index]}`).not.toBeNaN();
          if (type === 'integer') expect(Number.isInteger(Number(cell))).toBe(true);
          if (constraints?.minimum !== undefined)
            expect(Number(cell)).toBeGreaterThanOrEqual(constraints.minimum);
        }
      }
    }
    const scores = tables.find(({ name }) => name === 'scores')!;
    expect(scores.csv).toContain(",'=K,");
    expect(tables.find(({ name }) => name === 'weather')!.csv).toContain('2027-04-12,-0.5,,,,0');
  });

  it('compares as the comparison table says: a plot value is the mean of its photos, an excluded one stays out', () => {
    const plan = samplePlan();
    const excluded = {
      ...plan,
      exclusions: [
        { id: 'X1', plot: '101', ratingDate: '2027-05-17', variable: null, reason: 'flooded', by: 'K' },
      ],
    };
    const { comparison } = packagedSample({}, excluded);
    const out = comparison!.observations.filter(({ excluded: why }) => why !== null);
    expect(out.map(({ plot, ratingDate, excluded: why }) => [plot, ratingDate, why])).toEqual(
      Array(3).fill(['101', '2027-05-17', 'flooded']),
    );
    const may = comparison!.comparison.analyses.find(({ ratingDate }) => ratingDate === '2027-05-17')!;
    expect(may.analysis.treatments.reduce((sum, { n }) => sum + n, 0)).toBe(15);
  });
});
