import { bytesFromBase64 } from '../../core/kernels/bytesFromBase64.ts';
import { type RecordOf, TABLES } from '../tables.ts';
import { type Archived, type ArchivedTable, BYTES_FIELDS } from './archivedTables.ts';

export type RecordChecking<T> =
  | { readonly ok: true; readonly record: T }
  | { readonly ok: false; readonly reason: string };

const EMPTY = new ArrayBuffer(0);

/** Checks a record of an archive as one of the store is checked; bytes that stand in files stay there. */
export function checkArchived<Name extends ArchivedTable>(
  table: Name,
  record: unknown,
): RecordChecking<Archived<Name>> {
  const field = BYTES_FIELDS[table]?.field;
  if (typeof record !== 'object' || record === null) return { ok: false, reason: 'no record' };
  const entries = record as Record<string, unknown>;
  if (field !== undefined && !isStoredBytes(entries[field]))
    return { ok: false, reason: `${field}: no bytes` };
  const checked = TABLES[table].schema.safeParse(
    field === undefined ? record : { ...entries, [field]: EMPTY },
  );
  if (checked.success) return { ok: true, record: record as Archived<Name> };
  const [issue] = checked.error.issues;
  return { ok: false, reason: issue ? `${issue.path.join('.')}: ${issue.code}` : 'not readable' };
}

function isStoredBytes(value: unknown): boolean {
  if (typeof value !== 'object' || value === null) return false;
  const { file, base64 } = value as Record<string, unknown>;
  if (typeof file === 'string') return base64 === undefined;
  return typeof base64 === 'string' && base64.length % 4 === 0 && /^[A-Za-z0-9+/]*={0,2}$/.test(base64);
}

/** A record as the store holds it. @param bytes what stands in its file; null for bytes that stand in the record */
export function storedRecord<Name extends ArchivedTable>(
  table: Name,
  record: Archived<Name>,
  bytes: Uint8Array<ArrayBuffer> | null,
): RecordOf<Name> {
  const field = BYTES_FIELDS[table]?.field;
  if (field === undefined) return record as unknown as RecordOf<Name>;
  const { base64 } = (record as Record<string, { base64?: string }>)[field]!;
  const own = bytes ?? bytesFromBase64(base64 ?? '');
  return { ...record, [field]: own.buffer } as unknown as RecordOf<Name>;
}
