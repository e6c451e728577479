import type { Database, RawTable, RawTables } from './database.ts';
import { rawExport } from './rawExport.ts';
import { CURRENT_VERSION } from './schemaVersions.ts';
import { keyOf, type RecordKey, TABLE_NAMES, TABLES, type TableName } from './tables.ts';

export interface MemoryDatabaseOptions {
  /** Bytes that buffers in all records may take together; above it a write fails as a full disk does. @default none */
  readonly quotaBytes?: number;
}

type Records = ReadonlyMap<string, unknown>;

/** A database that forgets: for tests, and for a browser that allows no other. Records are copied in and out. */
export class MemoryDatabase implements Database {
  #tables = new Map<TableName, Records>(TABLE_NAMES.map((name) => [name, new Map()]));
  #lastWrite: Promise<unknown> = Promise.resolve();
  #closed = false;
  readonly #quotaBytes: number;

  constructor({ quotaBytes = Number.POSITIVE_INFINITY }: MemoryDatabaseOptions = {}) {
    this.#quotaBytes = quotaBytes;
  }

  transact<T>(
    mode: 'read' | 'write',
    names: readonly TableName[],
    work: (tables: RawTables) => Promise<T>,
  ): Promise<T> {
    if (mode === 'read') return this.#run(mode, names, work);
    const turn = this.#lastWrite.then(() => this.#run(mode, names, work));
    this.#lastWrite = turn.catch(() => undefined);
    return turn;
  }

  async #run<T>(
    mode: 'read' | 'write',
    names: readonly TableName[],
    work: (tables: RawTables) => Promise<T>,
  ): Promise<T> {
    if (this.#closed) throw Object.assign(new Error('database is closed'), { name: 'DatabaseClosedError' });
    const copies = new Map(names.map((name) => [name, new Map(this.#tables.get(name))]));
    const tables = Object.fromEntries(
      [...copies].map(([name, records]) => [name, tableOver(name, records, mode)]),
    );
    const result = await work(tables as RawTables);
    if (mode === 'write') {
      const next = new Map<TableName, Records>([...this.#tables, ...copies]);
      if (bytesIn(next) > this.#quotaBytes) {
        throw Object.assign(new Error(`more than ${this.#quotaBytes} bytes`), { name: 'QuotaExceededError' });
      }
      this.#tables = next;
    }
    return result;
  }

  async exportRaw(): Promise<Blob> {
    return rawExport('memory', CURRENT_VERSION, [...this.#tables], async (records, write) => {
      for (const record of records.values()) await write(record);
    });
  }

  close(): void {
    this.#closed = true;
  }
}

const asText = (key: RecordKey) => JSON.stringify(key);

function tableOver(name: TableName, records: Map<string, unknown>, mode: 'read' | 'write'): RawTable {
  const mayWrite = () => {
    if (mode === 'read') throw new TypeError(`${name}: the transaction is for reading only`);
  };
  const matching = (index: string, value: string | number) => {
    const known: readonly string[] = TABLES[name].indexes;
    if (!known.includes(index)) throw new TypeError(`${name} has no index ${index}`);
    return [...records.values()].filter((record) => (record as Record<string, unknown>)[index] === value);
  };
  const get = async (key: RecordKey) => structuredClone(records.get(asText(key)));
  return {
    get,
    getMany: (keys) => Promise.all(keys.map(get)),
    all: async () => structuredClone([...records.values()]),
    where: async (index, value) => structuredClone(matching(index, value)),
    first: async (index, value) => structuredClone(matching(index, value)[0]),
    async put(record) {
      mayWrite();
      records.set(asText(keyOf(name, record)), structuredClone(record));
    },
    async delete(key) {
      mayWrite();
      records.delete(asText(key));
    },
  };
}

function bytesIn(tables: ReadonlyMap<TableName, Records>): number {
  let sum = 0;
  for (const records of tables.values()) {
    for (const record of records.values()) {
      for (const value of Object.values(record as object)) {
        if (value instanceof ArrayBuffer) sum += value.byteLength;
      }
    }
  }
  return sum;
}
