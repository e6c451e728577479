import { NewerDatabase } from '../../storage/newerDatabase.ts';
import { namesOf, type StorageProblem } from '../../storage/storageProblem.ts';
import type { Observable } from './observable.ts';
import { ObservableValue } from './observable.ts';
import type { StorageFailure, StorageState } from './session.ts';
import type { SessionParts } from './sessionParts.ts';

type StatusParts = Pick<SessionParts, 'storageManager' | 'storageForbidden'>;

/** How browsers refuse a database: by the standard, and in private windows of older Firefox (from memory). */
const FORBIDDEN: ReadonlySet<string> = new Set(['SecurityError', 'InvalidStateError']);

type Ready = Extract<StorageState, { state: 'ready' }>;

/** Follows how the database is, from what befalls it. */
export class StorageStatus {
  readonly #observable = new ObservableValue<StorageState>({ state: 'opening', empty: false });
  readonly #forbidden: boolean;
  readonly #estimate: () => Promise<StorageEstimate>;
  #ready: Ready = {
    state: 'ready',
    persisted: false,
    otherTabs: 0,
    savedAt: null,
    decoder: 'unknown',
    unreadableRecords: 0,
    lost: null,
  };

  constructor({ storageManager, storageForbidden }: StatusParts) {
    this.#forbidden = storageForbidden;
    this.#estimate = async () => (await storageManager?.estimate()) ?? {};
  }

  get observable(): Observable<StorageState> {
    return this.#observable;
  }

  /** The database can be used, or can be used again. A database that a newer version took over stays lost. */
  opened(): void {
    if (this.#observable.get().state !== 'newer') this.#observable.set(this.#ready);
  }

  /** Nothing was ever stored here, so the start screen need not wait for the database. */
  empty(): void {
    this.#observable.set({ state: 'opening', empty: true });
  }

  blocked(): void {
    this.#observable.set({ state: 'blocked' });
  }

  newer({ storedVersion, knownVersion }: NewerDatabase): void {
    this.#observable.set({ state: 'newer', storedVersion, knownVersion });
  }

  insecure(): void {
    this.#fail({ code: 'insecure-context' });
  }

  /** The browser closed the database. */
  closed(): void {
    this.#fail({ code: 'closed' });
  }

  /** The database could not be opened or read. */
  failed(error: unknown): void {
    const names = namesOf(error);
    const detail = error instanceof Error ? error.message : String(error);
    if (error instanceof NewerDatabase) this.newer(error);
    else if (names.includes('QuotaExceededError')) void this.#full();
    else if (names.includes('DatabaseClosedError')) this.closed();
    else if (names.includes('UpgradeFailed')) this.#fail({ code: 'upgrade-failed', detail });
    else if (this.#forbidden || names.some((name) => FORBIDDEN.has(name))) this.#fail({ code: 'forbidden' });
    else this.#fail({ code: 'not-opened', detail });
  }

  /** A write was not stored. */
  notWritten(problem: StorageProblem): void {
    switch (problem.code) {
      case 'quota-exceeded':
        void this.#full();
        break;
      case 'database-closed':
        this.closed();
        break;
      case 'write-failed':
        this.#fail({ code: 'write-failed', detail: problem.detail });
        break;
    }
  }

  /** Changes what is said of a database that works. */
  note(facts: Partial<Omit<Ready, 'state'>>): void {
    const keys = Object.keys(facts) as (keyof typeof facts)[];
    if (keys.every((key) => facts[key] === this.#ready[key])) return;
    this.#ready = { ...this.#ready, ...facts };
    if (this.#observable.get().state === 'ready') this.#observable.set(this.#ready);
  }

  #fail(failure: StorageFailure): void {
    // what a newer version took over fails in many ways, and only the first of them matters
    if (this.#observable.get().state !== 'newer') this.#observable.set({ state: 'failed', failure });
  }

  async #full(): Promise<void> {
    this.#observable.set({ state: 'full', usedBytes: null, quotaBytes: null });
    const { usage = null, quota = null } = await this.#estimate();
    if (this.#observable.get().state === 'full') {
      this.#observable.set({ state: 'full', usedBytes: usage, quotaBytes: quota });
    }
  }
}
