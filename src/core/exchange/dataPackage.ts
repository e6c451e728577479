import { dataPackageText as text } from '../text/dataPackage.ts';
import { RESULTS_CAUTION } from '../text/statisticsCommands.ts';
import { dataPackageField } from './dataPackageFields.ts';
import { finiteJson } from './finiteJson.ts';

/** A table of the package, as it is written. */
export interface PackageTable {
  /** Name of the resource; its file is NAME.csv. */
  readonly name: keyof typeof text.tables;
  readonly columns: readonly string[];
  readonly csv: string;
  /** Columns that tell its rows apart; none where a row has no name of its own. */
  readonly primaryKey: readonly string[];
}

/** Bytes and SHA-256 of a file of the package. */
export interface PackageFile {
  readonly bytes: number;
  readonly sha256: string;
}

/** What the package is about. */
export interface PackageHead {
  /** Letters, digits, `.`, `_`, `-`. */
  readonly name: string;
  readonly trial: string | null;
  /** ISO 8601 instant. */
  readonly createdAt: string;
  readonly softwareVersion: string;
}

/** Keys into other tables, where both are there. */
const FOREIGN_KEYS: Readonly<Record<string, readonly (readonly [field: string, resource: string])[]>> = {
  plots: [['treatment', 'treatments']],
  scores: [['plot', 'plots']],
  observations: [['plot', 'plots']],
};

/**
 * The descriptor `datapackage.json` of a set of tables.
 *
 * @param files by name of the table
 * @see Data Package standard 2.0: Data Package, Data Resource, Table Schema
 */
export function dataPackageDescriptor(
  tables: readonly PackageTable[],
  files: ReadonlyMap<string, PackageFile>,
  { name, trial, createdAt, softwareVersion }: PackageHead,
): string {
  const there = new Set<string>(tables.map((table) => table.name));
  return finiteJson({
    $schema: 'https://datapackage.org/profiles/2.0/datapackage.json',
    name,
    title: text.title(trial),
    description: text.description(RESULTS_CAUTION),
    created: createdAt,
    version: `1 (Swardbook ${softwareVersion})`,
    resources: tables.map((table) => {
      const { bytes, sha256 } = files.get(table.name)!;
      const keys = (FOREIGN_KEYS[table.name] ?? []).filter(([, resource]) => there.has(resource));
      return {
        $schema: 'https://datapackage.org/profiles/2.0/dataresource.json',
        name: table.name,
        type: 'table',
        path: `${table.name}.csv`,
        description: text.tables[table.name],
        format: 'csv',
        mediatype: 'text/csv',
        encoding: 'utf-8',
        bytes,
        hash: `sha256:${sha256}`,
        schema: {
          $schema: 'https://datapackage.org/profiles/2.0/tableschema.json',
          fields: table.columns.map((column) => dataPackageField(table.name, column)),
          missingValues: [''],
          ...(table.primaryKey.length > 0 && { primaryKey: table.primaryKey }),
          ...(keys.length > 0 && {
            foreignKeys: keys.map(([field, resource]) => ({
              fields: [field],
              reference: { resource, fields: [field] },
            })),
          }),
        },
      };
    }),
  });
}
