import type { Database, RawTable } from './database.ts';
import type { RecordChecker } from './recordChecker.ts';
import { storageProblemOf, type Written } from './storageProblem.ts';
import type { RecordKey, RecordOf, TableName } from './tables.ts';

/** What changed in the store, so that lists can be brought up to date without reading everything again. */
export interface StoreChange {
  /** Photos of which a fact, a setting, a figure or the job changed, or that came or went. */
  readonly photoIds: readonly string[];
  /** Names of settings of the program that changed. */
  readonly settings: readonly string[];
  /** Trials of which the plan, a score or the weather changed, or that came or went. @default none */
  readonly trialIds?: readonly string[];
  /** Photos whose corrections changed. @default none */
  readonly correctedIds?: readonly string[];
  /** Whether plans of counts, points, calls, counts on the turf or observer tests changed. @default no */
  readonly points?: boolean;
}

/** A table whose records have been checked; those that cannot be read are left out here and reported. */
export interface CheckedTable<Name extends TableName> {
  get(key: RecordKey): Promise<RecordOf<Name> | undefined>;
  getMany(keys: readonly RecordKey[]): Promise<(RecordOf<Name> | undefined)[]>;
  all(): Promise<RecordOf<Name>[]>;
  where(index: string, value: string | number): Promise<RecordOf<Name>[]>;
  first(index: string, value: string | number): Promise<RecordOf<Name> | undefined>;
  put(record: RecordOf<Name>): Promise<void>;
  delete(key: RecordKey): Promise<void>;
}

export type CheckedTables<Names extends TableName> = { readonly [Name in Names]: CheckedTable<Name> };

export interface StoreParts {
  readonly database: Database;
  readonly checker: RecordChecker;
  readonly now: () => Date;
  readonly newId: () => string;
  /** Called after a write that stored something a person would miss. */
  readonly onSaved: (at: Date) => void;
  /** Called after a write that changes what lists show. */
  readonly announce: (change: StoreChange) => void;
}

/** Checked transactions, the clock and new names: what the parts of a project store share. */
export class StoreContext {
  readonly #parts: StoreParts;

  constructor(parts: StoreParts) {
    this.#parts = parts;
  }

  /** ISO 8601 instant. */
  now(): string {
    return this.#parts.now().toISOString();
  }

  newId(): string {
    return this.#parts.newId();
  }

  read<Names extends TableName, T>(
    names: readonly Names[],
    work: (tables: CheckedTables<Names>) => Promise<T>,
  ): Promise<T> {
    return this.#transact('read', names, work);
  }

  /** One transaction; what `changed` says of its result is announced once it is stored. */
  async write<Names extends TableName, T>(
    names: readonly Names[],
    work: (tables: CheckedTables<Names>) => Promise<T>,
    changed: (value: T) => Partial<StoreChange>,
  ): Promise<Written<T>> {
    let value: T;
    try {
      value = await this.#transact('write', names, work);
    } catch (error) {
      return { written: false, problem: storageProblemOf(error) };
    }
    const { photoIds = [], settings = [], trialIds = [], correctedIds = [], points = false } = changed(value);
    if (photoIds.length + settings.length + trialIds.length + correctedIds.length > 0 || points) {
      this.#parts.onSaved(this.#parts.now());
      this.#parts.announce({ photoIds, settings, trialIds, correctedIds, points });
    }
    return { written: true, value };
  }

  #transact<Names extends TableName, T>(
    mode: 'read' | 'write',
    names: readonly Names[],
    work: (tables: CheckedTables<Names>) => Promise<T>,
  ): Promise<T> {
    const { database, checker } = this.#parts;
    return database.transact(mode, names, (raw) => {
      const checked = names.map((name) => [name, checkedTable(name, raw[name], checker)]);
      return work(Object.fromEntries(checked));
    });
  }
}

function checkedTable<Name extends TableName>(
  name: Name,
  raw: RawTable,
  checker: RecordChecker,
): CheckedTable<Name> {
  const check = (record: unknown) => checker.check(name, record);
  const readable = (records: readonly unknown[]) =>
    records.map(check).filter((record) => record !== undefined);
  return {
    get: async (key) => check(await raw.get(key)),
    getMany: async (keys) => (await raw.getMany(keys)).map(check),
    all: async () => readable(await raw.all()),
    where: async (index, value) => readable(await raw.where(index, value)),
    first: async (index, value) => check(await raw.first(index, value)),
    put: (record) => raw.put(record),
    delete: (key) => raw.delete(key),
  };
}
