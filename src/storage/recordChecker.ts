import { keyOf, type RecordOf, TABLES, type TableName } from './tables.ts';

/** A record of the store that is not what this version of the program expects. It stays in the store as it is. */
export interface UnreadableRecord {
  readonly table: TableName;
  readonly key: string;
  /** Which field, and what is wrong with it. */
  readonly reason: string;
}

/** Checks records as they come out of the store, and remembers those that cannot be read. */
export class RecordChecker {
  readonly #unreadable = new Map<string, UnreadableRecord>();

  /** The record itself, unchanged, or undefined where it cannot be read. */
  check<Name extends TableName>(table: Name, record: unknown): RecordOf<Name> | undefined {
    if (record === undefined) return undefined;
    const checked = TABLES[table].schema.safeParse(record);
    if (checked.success) return record as RecordOf<Name>;
    const key = String(keyOf(table, record));
    const [issue] = checked.error.issues;
    const reason = issue ? `${issue.path.join('.')}: ${issue.code}` : 'not readable';
    this.#unreadable.set(`${table} ${key}`, { table, key, reason });
    return undefined;
  }

  get unreadable(): readonly UnreadableRecord[] {
    return [...this.#unreadable.values()];
  }
}
