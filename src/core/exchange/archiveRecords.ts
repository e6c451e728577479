import { canonicalJson } from '../mask/canonicalJson.ts';

/*
 * Records of the database as files of an archive: one file a table, one line a record, keys in one order, so that equal
 * tables give equal bytes. Bytes inside a record stand in a file of their own, or as base64 where they are small.
 */

/** In a record of an archive, in the place of bytes. */
export type StoredBytes = { readonly file: string } | { readonly base64: string };

const RECORDS_TYPE = 'swardbook-records';
const RECORDS_VERSION = 1;

/** Path of a table inside an archive. */
export const tablePath = (table: string): string => `data/${table}.json`;

/**
 * A table as text.
 *
 * @param records without ArrayBuffers, sorted by their keys
 * @throws TypeError for what JSON does not know
 */
export function writeRecordTable(table: string, records: readonly unknown[]): string {
  const head = `{"type":"${RECORDS_TYPE}","version":${RECORDS_VERSION},"table":${JSON.stringify(table)},"records":[`;
  return `${head}${records.map((record) => `\n${canonicalJson(record)}`).join(',')}\n]}\n`;
}

/** @returns the records, or what is wrong in words of the program */
export function readRecordTable(
  table: string,
  text: string,
):
  | { readonly ok: true; readonly records: readonly unknown[] }
  | { readonly ok: false; readonly detail: string } {
  let file: unknown;
  try {
    file = JSON.parse(text);
  } catch (error) {
    return { ok: false, detail: (error as Error).message };
  }
  const { type, version, table: named, records } = (file ?? {}) as Record<string, unknown>;
  if (type !== RECORDS_TYPE) return { ok: false, detail: `type ${JSON.stringify(type)}` };
  if (version !== RECORDS_VERSION) return { ok: false, detail: `version ${JSON.stringify(version)}` };
  if (named !== table) return { ok: false, detail: `table ${JSON.stringify(named)}` };
  if (!Array.isArray(records)) return { ok: false, detail: 'records is no list' };
  return { ok: true, records };
}

/** Orders records by their keys: text by UTF-16 code units, numbers by value, part by part. */
export function compareKeys(a: readonly (string | number)[], b: readonly (string | number)[]): number {
  for (let i = 0; i < a.length; i += 1) {
    const [x, y] = [a[i]!, b[i]!];
    if (x !== y) return x < y ? -1 : 1;
  }
  return 0;
}
