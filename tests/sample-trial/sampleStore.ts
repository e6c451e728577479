import { inflateMask } from '../../src/app/session/inflateMask.ts';
import { ObservableValue } from '../../src/app/session/observable.ts';
import type { PartContext } from '../../src/app/session/sessionPart.ts';
import { TrialSession } from '../../src/app/session/trialSession.ts';
import { MemoryDatabase } from '../../src/storage/memoryDatabase.ts';
import type { PhotoSummary } from '../../src/storage/photoSummary.ts';
import { createProjectStore, type ProjectStore } from '../../src/storage/projectStore.ts';
import type { Written } from '../../src/storage/storageProblem.ts';

/** A clock that is put to a day of the story and then goes on by a second whenever it is read. */
class StoryClock {
  #at = Date.parse('2027-02-01T08:00:00.000Z');

  /** @param instant ISO 8601; time never goes back */
  put(instant: string): void {
    this.#at = Math.max(this.#at, Date.parse(instant));
  }

  readonly now = (): Date => {
    this.#at += 1000;
    return new Date(this.#at);
  };
}

/** A store in memory with what the parts of a session need to work on it outside a browser, one after the other. */
export interface SampleStore {
  readonly store: ProjectStore;
  readonly clock: StoryClock;
  readonly context: PartContext;
  readonly trial: TrialSession;
  /** Waits until the overview shows what was written. */
  settled(): Promise<void>;
}

/** Longer than the overview needs after the last of many writes; nothing but how soon it is done depends on it. */
const OVERVIEW_MS = 200;

/** @param prefix of all ids, which are counted: the same steps give the same records */
export async function openSampleStore(prefix: string): Promise<SampleStore> {
  const clock = new StoryClock();
  const { now } = clock;
  let count = 0;
  const newId = () => {
    count += 1;
    return `${prefix}${count}`;
  };
  const store = createProjectStore({ database: new MemoryDatabase(), channel: null, now, newId });
  const photos = new ObservableValue<readonly PhotoSummary[]>([]);
  const fail = (error: unknown) => {
    throw error;
  };
  await store.observeOverview((overview) => photos.set(overview.photos), fail);
  const settle = (written: Written<unknown>) => void stored(written);
  const startLabelWorker = () => ({
    read: async () => ({ ok: true as const, texts: [] }),
    terminate: () => {},
    onDeath: () => {},
  });
  const trial = new TrialSession({ store, photos, now, startLabelWorker, settle, onError: fail });
  const context: PartContext = {
    store,
    photos,
    parts: { now, newId } as PartContext['parts'],
    openTrial: async () => trial,
    async mask(id) {
      const record = await store.photos.automaticMask(id);
      return record && inflateMask(record);
    },
    settle,
    goOn: () => {},
    fail,
    onClose: () => {},
  };
  const settled = () => new Promise<void>((resolve) => setTimeout(resolve, OVERVIEW_MS));
  return { store, clock, context, trial, settled };
}

/** @throws Error where it was not stored */
export function stored<T>(written: Written<T>): T {
  if (!written.written) throw new Error(`not stored: ${JSON.stringify(written.problem)}`);
  return written.value;
}
