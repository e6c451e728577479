import { ArchiveStore } from './archiveStore.ts';
import { AreaStore } from './areaStore.ts';
import { CheckStore } from './checkStore.ts';
import { ClassUseStore } from './classUseStore.ts';
import { CorrectionStore } from './correctionStore.ts';
import type { Database } from './database.ts';
import { DeclarationStore } from './declarationStore.ts';
import { FieldStore } from './fieldStore.ts';
import { FigureStore } from './figureStore.ts';
import { JobQueue } from './jobQueue.ts';
import { PhotoStore } from './photoStore.ts';
import { PointStore } from './pointStore.ts';
import { type Overview, ProjectOverview } from './projectOverview.ts';
import { RecordChecker, type UnreadableRecord } from './recordChecker.ts';
import { ReviewStore } from './reviewStore.ts';
import { SampleTrialStore } from './sampleTrialStore.ts';
import { SettingStore } from './settingStore.ts';
import { type StoreChange, StoreContext } from './storeContext.ts';
import type { TabChannel } from './tabChannel.ts';
import { TeachingStore } from './teachingStore.ts';
import { TrialStore } from './trialStore.ts';

/**
 * Everything a project keeps, whatever it is kept in.
 *
 * Every write is one transaction and answers whether it was stored; reads throw only when the database is closed or
 * broken. A record that cannot be read is passed over, stays where it is, and is listed.
 */
export interface ProjectStore {
  readonly photos: PhotoStore;
  readonly jobs: JobQueue;
  readonly figures: FigureStore;
  readonly settings: SettingStore;
  readonly trials: TrialStore;
  readonly declarations: DeclarationStore;
  readonly teaching: TeachingStore;
  readonly classUse: ClassUseStore;
  readonly archive: ArchiveStore;
  readonly corrections: CorrectionStore;
  readonly reviews: ReviewStore;
  readonly points: PointStore;
  readonly checks: CheckStore;
  readonly areas: AreaStore;
  readonly field: FieldStore;
  readonly sampleTrial: SampleTrialStore;
  /**
   * All photos in small, now and after every change of this tab or another.
   *
   * @param onError told when the store can no longer be read
   * @returns once the first overview was given: the way to stop
   */
  observeOverview(
    onNew: (overview: Overview) => void,
    onError: (error: unknown) => void,
  ): Promise<() => void>;
  /** Tells of every change of a trial, of this tab or another. @returns the way to stop */
  observeTrials(onChange: (trialIds: readonly string[]) => void): () => void;
  /** Tells of every change of corrections, reviews and sign-offs, of this tab or another. @returns the way to stop */
  observeCorrections(onChange: (photoIds: readonly string[]) => void): () => void;
  /** Tells of every change of point counts, of this tab or another. @returns the way to stop */
  observePoints(onChange: () => void): () => void;
  /** Records met so far that cannot be read. */
  unreadable(): readonly UnreadableRecord[];
  /** Every record as it stands, readable or not, as one JSON file. */
  exportRaw(): Promise<Blob>;
  close(): void;
}

export interface ProjectStoreOptions {
  readonly database: Database;
  /** To other tabs with the same database; null where there are none. */
  readonly channel: TabChannel | null;
  readonly now: () => Date;
  readonly newId: () => string;
  /** Called after a write that stored something a person would miss. @default nobody is told */
  readonly onSaved?: (at: Date) => void;
}

/** A project store over a database: the same rules for every kind of database. */
export function createProjectStore(options: ProjectStoreOptions): ProjectStore {
  const { database, channel, now, newId, onSaved = () => {} } = options;
  const checker = new RecordChecker();
  const listeners = new Set<(change: StoreChange) => void>();
  const tell = (change: StoreChange) => {
    for (const listener of [...listeners]) listener(change);
  };
  const announce = (change: StoreChange) => {
    tell(change);
    channel?.send({ kind: 'store-change', ...change });
  };
  channel?.listen((message) => {
    if (isStoreChange(message)) tell(message);
  });
  const context = new StoreContext({ database, checker, now, newId, onSaved, announce });
  return {
    photos: new PhotoStore(context),
    jobs: new JobQueue(context),
    figures: new FigureStore(context),
    settings: new SettingStore(context),
    trials: new TrialStore(context),
    declarations: new DeclarationStore(context),
    teaching: new TeachingStore(context),
    classUse: new ClassUseStore(context),
    archive: new ArchiveStore(context),
    corrections: new CorrectionStore(context),
    reviews: new ReviewStore(context),
    points: new PointStore(context),
    checks: new CheckStore(context),
    areas: new AreaStore(context),
    field: new FieldStore(context),
    sampleTrial: new SampleTrialStore(context),
    async observeOverview(onNew, onError) {
      const overview = new ProjectOverview(context, onNew, onError);
      // listening first, so that no change falls between reading and listening
      listeners.add(overview.update);
      await overview.load();
      return () => {
        listeners.delete(overview.update);
        overview.stop();
      };
    },
    observeTrials(onChange) {
      const listener = ({ trialIds = [] }: StoreChange) => {
        if (trialIds.length > 0) onChange(trialIds);
      };
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    observePoints(onChange) {
      const listener = ({ points = false }: StoreChange) => {
        if (points) onChange();
      };
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    observeCorrections(onChange) {
      const listener = ({ correctedIds = [] }: StoreChange) => {
        if (correctedIds.length > 0) onChange(correctedIds);
      };
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    unreadable: () => checker.unreadable,
    exportRaw: () => database.exportRaw(),
    close() {
      listeners.clear();
      database.close();
    },
  };
}

const isStoreChange = (message: unknown): message is StoreChange & { kind: 'store-change' } =>
  (message as { kind?: unknown } | null)?.kind === 'store-change';
