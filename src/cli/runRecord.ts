import { createHash } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { z } from 'zod';
import { type CoverRow, readCoverTable, writeCoverTable } from '../core/exchange/coverTable.ts';
import { cli, coverTableProblemText } from '../core/text/cli.ts';
import { UsageError } from './usageError.ts';
import { writeWhole } from './wholeFile.ts';

/** What a photo's rows rest on; rows are kept by --resume only while all of it is unchanged. */
export interface PhotoRecord {
  /** Of the photo file. */
  readonly photoSha256: string;
  /** Of its settings, the model and the program. */
  readonly settingsSha256: string;
  /** Of its rows as they stand in the table: a row edited by hand is measured again. */
  readonly rowsSha256: string;
}

/** A table that is being made, and the record beside it. */
export interface FormerRun {
  readonly rows: ReadonlyMap<string, readonly CoverRow[]>;
  readonly records: ReadonlyMap<string, PhotoRecord>;
}

/** The record stands beside the table under this name. */
export const recordPath = (tablePath: string): string => `${tablePath}.run.json`;

const hash = z.string().regex(/^[0-9a-f]{64}$/);
const recordSchema = z.object({
  type: z.literal('measure-run'),
  version: z.literal(1),
  photos: z.record(z.string(), z.object({ photoSha256: hash, settingsSha256: hash, rowsSha256: hash })),
});

export const sha256 = (content: string | Uint8Array): string =>
  createHash('sha256').update(content).digest('hex');
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
  return { rows, records: new Map(Object.entries(parseRecord(record))) };
}

/** Writes table and record; the table first, so that a record never vouches for rows that are not there. */
export async function writeRun(
  tablePath: string,
  rows: readonly CoverRow[],
  records: ReadonlyMap<string, PhotoRecord>,
): Promise<void> {
  await writeWhole(tablePath, writeCoverTable(rows));
  const record = { type: 'measure-run', version: 1, photos: Object.fromEntries(records) };
  await writeWhole(recordPath(tablePath), `${JSON.stringify(record, null, 1)}\n`);
}

function parseRecord(text: string | null): Record<string, PhotoRecord> {
  try {
    return recordSchema.parse(JSON.parse(text ?? '')).photos;
  } catch {
    return {};
  }
}

function ifMissing(error: NodeJS.ErrnoException): null {
  if (error.code === 'ENOENT') return null;
  throw error;
}
