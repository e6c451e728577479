import { createSession } from '../../../src/app/session/createSession.ts';
import { browserKeptMark } from '../../../src/app/session/keptMark.ts';
import type { LocalStore } from '../../../src/app/session/localStore.ts';
import type { Session } from '../../../src/app/session/session.ts';
import type { SessionParts } from '../../../src/app/session/sessionParts.ts';
import { MemoryDatabase } from '../../../src/storage/memoryDatabase.ts';
import { countingIds, steppingClock, testChannels } from '../../storage/support.ts';
import { FakeBrowserLocks } from '../measuring/fakeLocks.ts';
import { FakeWorker } from '../measuring/fakeWorkers.ts';
import { testFarewell } from '../measuring/testFarewell.ts';

/** A worker that measures at once, and whose masks can be read. */
class QuickWorker extends FakeWorker {
  override measure(...[job, onProgress]: Parameters<FakeWorker['measure']>) {
    const measuring = super.measure(job, onProgress);
    queueMicrotask(() => this.answer());
    return measuring;
  }
  // labels 1 and 2 as runs (1 once, 2 once, no repeat) in one stored block (RFC 1951, 3.2.4)
  override readonly mask = {
    widthPx: 2,
    heightPx: 1,
    bytes: new Uint8Array([1, 5, 0, 0xfa, 0xff, 1, 1, 2, 1, 0]).buffer,
  };
}

/** A pretended browser in which sessions can be opened one beside the other. */
export function testBrowser(replaced: Partial<SessionParts> = {}) {
  const database = new MemoryDatabase();
  const locks = new FakeBrowserLocks();
  const openChannel = testChannels();
  const localEntries = new Map<string, string>();
  const localStore: LocalStore = {
    getItem: (name) => localEntries.get(name) ?? null,
    setItem: (name, value) => localEntries.set(name, value),
    removeItem: (name) => localEntries.delete(name),
  };
  const persist = { asked: 0, granted: true };
  let tabs = 0;
  const open = async (more: Partial<SessionParts> = {}): Promise<Session> => {
    tabs += 1;
    return createSession({
      projectName: 'test',
      secureContext: true,
      storageForbidden: false,
      nothingStored: async () => false,
      openDatabase: async () => database,
      exportRaw: () => database.exportRaw(),
      openChannel,
      farewell: testFarewell(),
      keptMark: browserKeptMark('kept', localStore),
      locks: locks.tab(`tab ${tabs}`),
      storageManager: {
        persisted: async () => false,
        async persist() {
          persist.asked += 1;
          return persist.granted;
        },
        estimate: async () => ({ usage: 90, quota: 100 }),
      },
      startWorker: () => new QuickWorker(),
      startCorrectWorker: () => {
        throw new Error('no test of the session corrects');
      },
      startTeachWorker: () => {
        throw new Error('no test of the session teaches');
      },
      startLabelWorker: () => ({
        read: async () => ({ ok: true, texts: [] }),
        terminate: () => {},
        onDeath: () => {},
      }),
      poolSize: 1,
      loadSamplePhotos: async () => [],
      now: steppingClock(),
      newId: countingIds(`tab${tabs}-`),
      ...replaced,
      ...more,
    });
  };
  return { database, locks, persist, open };
}
