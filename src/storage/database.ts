import type { RecordKey, TableName } from './tables.ts';

/**
 * The little that a project store needs of a database. Records are `unknown` here: what comes out is checked one
 * level up, so that a record of an unexpected form can be reported instead of thrown away.
 */
export interface RawTable {
  get(key: RecordKey): Promise<unknown>;
  /** In the order of the keys; undefined where there is none. */
  getMany(keys: readonly RecordKey[]): Promise<unknown[]>;
  all(): Promise<unknown[]>;
  where(index: string, value: string | number): Promise<unknown[]>;
  /** Any one record with this value; undefined where there is none. */
  first(index: string, value: string | number): Promise<unknown>;
  put(record: unknown): Promise<void>;
  delete(key: RecordKey): Promise<void>;
}

export type RawTables = Readonly<Record<TableName, RawTable>>;

export interface Database {
  /**
   * Runs `work` as one transaction over the tables named: all of it is stored, or, when it throws, none.
   * `work` may await only the tables it is given.
   *
   * @throws whatever stopped it; see `storageProblemOf`
   */
  transact<T>(
    mode: 'read' | 'write',
    tables: readonly TableName[],
    work: (tables: RawTables) => Promise<T>,
  ): Promise<T>;
  /** Every record as it stands, as one JSON file. */
  exportRaw(): Promise<Blob>;
  close(): void;
}
