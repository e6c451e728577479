import { readFile } from 'node:fs/promises';
import { type CoverRow, readCoverTable, writeCoverTable } from '../core/exchange/coverTable.ts';
import {
  type PhotoRecord,
  readMeasureRunRecord,
  writeMeasureRunRecord,
} from '../core/exchange/measureRunRecord.ts';
import { cli, coverTableProblemText } from '../core/text/cli.ts';
import { sha256 } from './sha256.ts';
import { UsageError } from './usageError.ts';
import { writeWhole } from './wholeFile.ts';

/** A table that is being made, and the record beside it. */
export interface FormerRun {
  readonly rows: ReadonlyMap<string, readonly CoverRow[]>;
  readonly records: ReadonlyMap<string, PhotoRecord>;
}

/** The record stands beside the table under this name. */
export const recordPath = (tablePath: string): string => `${tablePath}.run.json`;

export const rowsSha256 = (rows: readonly CoverRow[]): string => sha256(writeCoverTable(rows));

/**
 * The table and record that an earlier run left; null where there is no table.
 *
 * A record that is missing or cannot be read is an empty one: then everything is measured again.
 *
 * @throws UsageError if the table cannot be read as one, since it would be lost
 */
export async function readFormerRun(tablePath: string): Promise<FormerRun | null> {
  const text = await readFile(tablePath, 'utf8').catch(ifMissing);
  if (text === null) return null;
  const table = readCoverTable(text, ['photo', 'class', 'cover_percent']);
  const [problem] = table.problems;
  if (problem) throw new UsageError(cli.measure.resumeUnreadable(tablePath, coverTableProblemText(problem)));
  const rows = new Map<string, CoverRow[]>();
  for (const { row: _, ...row } of table.rows) {
    const photo = row.photo ?? '';
    rows.set(photo, [...(rows.get(photo) ?? []), row]);
  }
  const record = await readFile(recordPath(tablePath), 'utf8').catch(ifMissing);
  return { rows, records: readMeasureRunRecord(record ?? '') };
}

/** Writes table and record; the table first, so that a record never vouches for rows that are not there. */
export async function writeRun(
  tablePath: string,
  rows: readonly CoverRow[],
  records: ReadonlyMap<string, PhotoRecord>,
): Promise<void> {
  await writeWhole(tablePath, writeCoverTable(rows));
  await writeWhole(recordPath(tablePath), writeMeasureRunRecord(records));
}

function ifMissing(error: NodeJS.ErrnoException): null {
  if (error.code === 'ENOENT') return null;
  throw error;
}
