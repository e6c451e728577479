import type { LabelMask } from '../../core/raster/labelMask.ts';
import type { PhotoSummary } from '../../storage/photoSummary.ts';
import type { ProjectStore } from '../../storage/projectStore.ts';
import type { Written } from '../../storage/storageProblem.ts';
import type { Observable } from './observable.ts';
import type { SessionParts } from './sessionParts.ts';
import type { TrialSession } from './trialSession.ts';

/** What a part of the session may use. */
export interface PartContext {
  readonly store: ProjectStore;
  readonly photos: Observable<readonly PhotoSummary[]>;
  /** The browser's own, or a test's. */
  readonly parts: SessionParts;
  openTrial(): Promise<TrialSession>;
  /** The automatic mask of a photo, as `Session.mask`. */
  mask(id: string): Promise<LabelMask | null>;
  /** Says what became of a write. */
  settle(written: Written<unknown>): void;
  /** Photos were put into the queue. */
  goOn(): void;
  /** The store can no longer be read. */
  fail(error: unknown): void;
  /** Done when the session closes. */
  onClose(end: () => void | Promise<void>): void;
}

/**
 * Makes a part of the session: what one screen needs of store and workers. Screens are loaded when they are first opened,
 * and their parts with them. Whoever opens a part stops it.
 */
export type OpenPart<T> = (context: PartContext) => Promise<T>;
