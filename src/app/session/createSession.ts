import type { LabelMask } from '../../core/raster/labelMask.ts';
import type { PhotoChange } from '../../storage/photoStore.ts';
import type { PhotoSummary } from '../../storage/photoSummary.ts';
import type { Overview } from '../../storage/projectOverview.ts';
import type { ProjectStore } from '../../storage/projectStore.ts';
import type { Written } from '../../storage/storageProblem.ts';
import type { Halt, JobRunner } from '../measuring/jobRunner.ts';
import type { WorkerPool } from '../measuring/workerPool.ts';
import { ObservableValue } from './observable.ts';
import { progressOf } from './progressOf.ts';
import type { readPhotoFile } from './readPhotoFile.ts';
import type { AddedFile, AddProblem, Progress, Session } from './session.ts';
import type { OpenPart, PartContext } from './sessionPart.ts';
import { browserParts, type SessionParts } from './sessionParts.ts';
import { SOFTWARE_VERSION } from './softwareVersion.ts';
import { StorageStatus } from './storageStatus.ts';
import type { TrialSession } from './trialSession.ts';

/**
 * Opens the store and starts measuring what waits.
 *
 * @param parts the browser's own unless a test gives others
 * @returns once it is known how the database is; trouble with it is said by `storageState`, never thrown
 */
export async function createSession(parts: SessionParts = browserParts()): Promise<Session> {
  const session = new BrowserSession(parts);
  await session.start();
  return session;
}

/** Masks kept beside the store: those of the photo on screen, just measured or just looked at. */
const MASKS_IN_MEMORY = 3;
/** Another tab may still be about to store a mask this long after its figure. */
const MASK_DELAY_MS = 1_000;
/** How long the start screen has its turn before the store is fetched and opened. */
const START_SCREEN_MS = 100;

/** Fetched once; what comes after the start screen has it in every browser but one that is here for the first time. */
const storeParts = () => import('./storeParts.ts');
type StoreParts = Awaited<ReturnType<typeof storeParts>>;

class BrowserSession implements Session {
  readonly photos = new ObservableValue<readonly PhotoSummary[]>([]);
  readonly progress = new ObservableValue<Progress>({
    total: 0,
    done: 0,
    failed: 0,
    running: 0,
    paused: false,
    trouble: null,
  });
  readonly #parts: SessionParts;
  readonly #status: StorageStatus;
  /** By figure, the newest last. */
  readonly #masks = new Map<string, LabelMask>();
  #trouble: Progress['trouble'] = null;
  #overview: Overview = { photos: [], jobs: new Map(), paused: false };
  #store: ProjectStore | null = null;
  #runner: JobRunner | null = null;
  /** What to undo at the end, in reverse. */
  readonly #closing: (() => void | Promise<void>)[] = [];
  #askedToPersist = false;
  #trial: Promise<TrialSession> | null = null;

  constructor(parts: SessionParts) {
    this.#parts = parts;
    this.#status = new StorageStatus(parts);
  }

  get storageState() {
    return this.#status.observable;
  }

  async start(): Promise<void> {
    if (!this.#parts.secureContext) return this.#status.insecure();
    if (await this.#isNew()) {
      this.#status.empty();
      const startScreen = new Promise((resolve) => setTimeout(resolve, START_SCREEN_MS));
      this.#opened = startScreen.then(() => this.#open(() => {}));
      return;
    }
    const waitsForOtherTab = new Promise<void>((resolve) => {
      this.#opened = this.#open(resolve);
    });
    await Promise.race([this.#opened, waitsForOtherTab]);
  }

  /** A browser that does not answer will not open the database either, and then says why. */
  async #isNew(): Promise<boolean> {
    return this.#parts.nothingStored().catch(() => false);
  }

  #open(onBlocked: () => void): Promise<void> {
    return this.#openDatabase(onBlocked).catch((error) => this.#status.failed(error));
  }

  #opened: Promise<void> = Promise.resolve();

  async #openDatabase(onBlocked: () => void): Promise<void> {
    const { openDatabase, openChannel, now, newId } = this.#parts;
    const opening = openDatabase({
      onBlocked: () => {
        this.#status.blocked();
        onBlocked();
      },
      onTakenOver: (newer) => {
        this.#status.newer(newer);
        void this.#runner?.stop();
      },
      onClosed: () => {
        this.#status.closed();
        void this.#runner?.stop();
      },
    });
    const [database, fetched] = await Promise.all([opening, storeParts()]);
    const channel = openChannel();
    const store = fetched.createProjectStore({
      database,
      channel,
      now,
      newId,
      onSaved: (at) => this.#status.note({ savedAt: at.toISOString() }),
    });
    this.#store = store;
    this.#closing.push(
      () => channel.close(),
      () => store.close(),
    );
    const { runner, pool } = this.#startRunner(store, fetched);
    const stopObserving = await store.observeOverview(
      (overview) => this.#show(overview),
      (error) => this.#status.failed(error),
    );
    this.#closing.push(stopObserving, () => runner.stop());
    this.#status.note({ unreadableRecords: store.unreadable().length });
    this.#status.opened();
    this.#watchTabs(channel, fetched);
    this.#watchPage();
    runner.start();
    void this.#noteStorageFacts(pool);
  }

  #startRunner(store: ProjectStore, fetched: StoreParts): { runner: JobRunner; pool: WorkerPool } {
    const { startWorker, poolSize, locks, farewell, projectName, newId } = this.#parts;
    const pool = new fetched.WorkerPool({ startWorker, size: poolSize });
    const runner = new fetched.JobRunner({
      store,
      pool,
      right: new fetched.MeasuringRight(locks, `${projectName} measuring`),
      farewell,
      newId,
      softwareVersion: SOFTWARE_VERSION,
      onMask: (figureId, mask) => this.#keepMask(figureId, mask),
      onHalt: (halt) => this.#halted(halt),
    });
    this.#runner = runner;
    return { runner, pool };
  }

  #watchTabs(channel: ReturnType<SessionParts['openChannel']>, { TabPresence }: StoreParts): void {
    const { locks, projectName, newId } = this.#parts;
    const presence = new TabPresence(locks, channel, {
      project: projectName,
      tabId: newId(),
      onCount: (otherTabs) => this.#status.note({ otherTabs }),
    });
    presence.start();
    const count = () => presence.count();
    globalThis.addEventListener?.('focus', count);
    this.#closing.push(() => {
      globalThis.removeEventListener?.('focus', count);
      presence.stop();
    });
  }

  #watchPage(): void {
    const leave = () => {
      this.#runner?.leave();
      void this.close();
    };
    // a page that comes back out of the browser's memory has lost its workers and locks
    const comeBack = (event: PageTransitionEvent) => {
      if (event.persisted) location.reload();
    };
    globalThis.addEventListener?.('pagehide', leave);
    globalThis.addEventListener?.('pageshow', comeBack);
    this.#closing.push(() => globalThis.removeEventListener?.('pagehide', leave));
  }

  async #noteStorageFacts(pool: WorkerPool): Promise<void> {
    this.#status.note({ persisted: (await this.#parts.storageManager?.persisted()) ?? false });
    // the worker is no part of the first load; the first photo starts it sooner
    if (typeof document !== 'undefined') await new Promise((resolve) => setTimeout(resolve, 2000));
    const verdict = await pool.decoder();
    if (verdict) this.#status.note({ decoder: verdict.state });
  }

  #show(overview: Overview): void {
    this.#overview = overview;
    this.#noteKept(overview.photos.length);
    this.photos.set(overview.photos);
    this.#showProgress();
    this.#status.note({ unreadableRecords: this.#store?.unreadable().length ?? 0 });
    this.#runner?.update(overview);
  }

  /** An empty store is no loss when it was emptied by hand, in this tab or another. */
  #noteKept(photos: number): void {
    const { keptMark, now } = this.#parts;
    const before = this.photos.get().length;
    if (photos > 0) {
      if (photos !== before) keptMark.write({ photos, at: now().toISOString() });
      this.#status.note({ lost: null });
    } else if (before > 0) keptMark.forget();
    else this.#status.note({ lost: keptMark.read() });
  }

  acknowledgeLoss(): void {
    this.#parts.keptMark.forget();
    this.#status.note({ lost: null });
  }

  #showProgress(): void {
    const next: Progress = { ...progressOf(this.#overview), trouble: this.#trouble };
    const before = this.progress.get();
    const keys = Object.keys(next) as (keyof Progress)[];
    if (keys.some((key) => next[key] !== before[key])) this.progress.set(next);
  }

  #halted(halt: Halt): void {
    if (halt.code === 'storage') this.#status.notWritten(halt.problem);
    else {
      this.#trouble = halt;
      this.#showProgress();
    }
  }

  /** Goes on measuring after a halt. */
  #goOn(): void {
    this.#trouble = null;
    this.#showProgress();
    this.#runner?.resume();
  }

  #openStore(): ProjectStore {
    if (!this.#store) throw new Error(`there is no open store: ${this.storageState.get().state}`);
    return this.#store;
  }

  /** Says what became of a write that a person asked for. */
  #settle(written: Written<unknown>): void {
    if (written.written) this.#status.opened();
    else this.#status.notWritten(written.problem);
  }

  async addFiles(files: readonly File[]): Promise<readonly AddedFile[]> {
    const batch = this.#parts.now().toISOString();
    return this.#addOneByOne(
      files,
      ({ name }) => name,
      (file) => this.#addFile(file, batch),
    );
  }

  async addSamplePhotos(): Promise<readonly AddedFile[]> {
    const samples = await this.#parts.loadSamplePhotos();
    const batch = this.#parts.now().toISOString();
    return this.#addOneByOne(
      samples,
      ({ name }) => name,
      async ({ name, frame, neutral, ignored, fetch }) => {
        let file: File;
        try {
          file = await fetch();
        } catch (error) {
          const { message: detail } = error as Error;
          return { name, state: 'refused', problem: { code: 'file-unreadable', detail } };
        }
        return this.#addFile(file, batch, { frame, neutral, ignored });
      },
    );
  }

  /**
   * Adds photos in turn and stops adding at the first that could not be stored. On a device without room, trying on
   * makes browsers lose what they hold: Chromium dropped its whole database after a dozen failed writes.
   */
  async #addOneByOne<T>(
    items: readonly T[],
    nameOf: (item: T) => string,
    add: (item: T) => Promise<AddedFile>,
  ): Promise<AddedFile[]> {
    const answers: AddedFile[] = [];
    let trouble: AddProblem | null = null;
    for (const item of items) {
      const answer: AddedFile = trouble
        ? { name: nameOf(item), state: 'refused', problem: trouble }
        : await add(item);
      answers.push(answer);
      if (answer.state === 'refused' && isOfStorage(answer.problem)) trouble = answer.problem;
    }
    return answers;
  }

  async #addFile(
    file: File,
    batch: string,
    settled?: Parameters<typeof readPhotoFile>[1],
  ): Promise<AddedFile> {
    const { name } = file;
    const { readPhotoFile } = await storeParts();
    const refused = (problem: AddProblem): AddedFile => ({ name, state: 'refused', problem });
    if (this.storageState.get().state === 'opening') await this.#opened;
    if (!this.#store) return refused({ code: 'storage-failed', detail: this.storageState.get().state });
    const read = await readPhotoFile(file, settled);
    if (!read.ok) return refused(read.problem);
    const written = await this.#store.photos.add(read.photo, batch);
    this.#settle(written);
    if (!written.written) return refused(addProblemOf(written.problem));
    const { state, photo } = written.value;
    this.#goOn();
    void this.#askToPersist();
    return state === 'added'
      ? { name, state, photoId: photo.id }
      : { name, state, photoId: photo.id, duplicateOf: photo.name };
  }

  /** Asked when there is something to lose, for some browsers put the question to the person. */
  async #askToPersist(): Promise<void> {
    const { storageManager } = this.#parts;
    if (this.#askedToPersist || !storageManager) return;
    this.#askedToPersist = true;
    const persisted = (await storageManager.persisted()) || (await storageManager.persist());
    this.#status.note({ persisted });
    await this.#store?.settings.set('storage-persisted', persisted);
  }

  async changePhoto(id: string, change: PhotoChange): Promise<void> {
    this.#settle(await this.#openStore().photos.change(id, change, null));
  }

  async removePhotos(ids: readonly string[]): Promise<void> {
    this.#settle(await this.#openStore().photos.remove(ids, null));
  }

  async openPhoto(id: string): Promise<{ bytes: ArrayBuffer; mask: LabelMask | null }> {
    this.#runner?.setOpenPhoto(id);
    const bytes = await this.#openStore().photos.bytes(id);
    if (!bytes) {
      const error = new Error(`the browser no longer holds the bytes of photo ${id}`);
      throw Object.assign(error, { name: 'PhotoBytesMissing' });
    }
    return { bytes, mask: await this.mask(id) };
  }

  async mask(id: string): Promise<LabelMask | null> {
    const stored = await this.#storedMask(id);
    if (stored || !this.#isMeasured(id)) return stored;
    // the figure is there and its mask may be on its way into the store, in this tab or another
    await this.#runner?.settled(id);
    const late = (await this.#storedMask(id)) ?? (await this.#storedMaskSoon(id));
    if (late || !this.#isMeasured(id)) return late;
    await this.retry([id]);
    return null;
  }

  /** Whether there is a figure and nothing under way that would replace it. */
  #isMeasured(id: string): boolean {
    const photo = this.photos.get().find((one) => one.id === id);
    return photo?.figure != null && photo.work === null;
  }

  async #storedMask(id: string): Promise<LabelMask | null> {
    const figureId = this.photos.get().find((one) => one.id === id)?.figure?.id;
    const kept = figureId && this.#masks.get(figureId);
    if (kept) return kept;
    const record = await this.#openStore().photos.automaticMask(id);
    const mask = record && (await (await storeParts()).inflateMask(record));
    if (mask) this.#keepMask(record.figureId, mask);
    return mask;
  }

  async #storedMaskSoon(id: string): Promise<LabelMask | null> {
    const figure = this.photos.get().find((one) => one.id === id)?.figure;
    const age = this.#parts.now().getTime() - Date.parse(figure?.measuredAt ?? '');
    if (!(age < MASK_DELAY_MS)) return null;
    await new Promise((resolve) => setTimeout(resolve, MASK_DELAY_MS));
    return this.#storedMask(id);
  }

  #keepMask(figureId: string, mask: LabelMask): void {
    this.#masks.delete(figureId);
    this.#masks.set(figureId, mask);
    for (const oldest of [...this.#masks.keys()].slice(0, -MASKS_IN_MEMORY)) this.#masks.delete(oldest);
  }

  async thumbnail(id: string): Promise<Blob | null> {
    const record = await this.#openStore().photos.thumbnail(id);
    return record && new Blob([record.jpeg], { type: 'image/jpeg' });
  }

  async cancelAll(): Promise<void> {
    this.#settle(await this.#openStore().jobs.cancelAll());
  }

  async pause(): Promise<void> {
    this.#settle(await this.#openStore().settings.set('measuring-paused', true));
  }

  async resume(): Promise<void> {
    this.#settle(await this.#openStore().settings.set('measuring-paused', false));
    this.#goOn();
  }

  async retry(ids: readonly string[]): Promise<void> {
    this.#settle(await this.#openStore().jobs.enqueue(ids));
    this.#goOn();
  }

  openTrial(): Promise<TrialSession> {
    this.#trial ??= this.#loadTrial();
    // a part that could not be fetched is asked for again
    this.#trial.catch(() => {
      this.#trial = null;
    });
    return this.#trial;
  }

  open<T>(part: OpenPart<T>): Promise<T> {
    return part(this.#partContext());
  }

  #partContext(): PartContext {
    return {
      store: this.#openStore(),
      photos: this.photos,
      parts: this.#parts,
      openTrial: () => this.openTrial(),
      mask: (id) => this.mask(id),
      settle: (written) => this.#settle(written),
      goOn: () => this.#goOn(),
      fail: (error) => this.#status.failed(error),
      onClose: (end) => this.#closing.push(end),
    };
  }

  async #loadTrial(): Promise<TrialSession> {
    const context = this.#partContext();
    const { openTrialSession } = await import('./openTrialSession.ts');
    return openTrialSession(context);
  }

  exportRaw(): Promise<Blob> {
    return this.#store ? this.#store.exportRaw() : this.#parts.exportRaw();
  }

  async close(): Promise<void> {
    for (const end of this.#closing.splice(0).reverse()) await end();
  }
}

const isOfStorage = ({ code }: AddProblem) => code === 'storage-full' || code === 'storage-failed';

function addProblemOf(problem: Extract<Written<never>, { written: false }>['problem']): AddProblem {
  if (problem.code === 'quota-exceeded') return { code: 'storage-full' };
  return { code: 'storage-failed', detail: problem.code === 'write-failed' ? problem.detail : problem.code };
}
