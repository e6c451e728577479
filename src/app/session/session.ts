import type { PhotoProblem } from '../../core/photo-file/photoProblem.ts';
import type { LabelMask } from '../../core/raster/labelMask.ts';
import type { PhotoChange } from '../../storage/photoStore.ts';
import type { PhotoSummary } from '../../storage/photoSummary.ts';
import type { Kept } from './keptMark.ts';
import type { Observable } from './observable.ts';
import type { OpenPart } from './sessionPart.ts';
import type { TrialSession } from './trialSession.ts';

export type { Figure, PhotoSummary } from '../../storage/photoSummary.ts';
export type { Observable } from './observable.ts';

/** Where the work on the photos stands. `total` counts the photos of the present batch. */
export interface Progress {
  readonly total: number;
  readonly done: number;
  readonly failed: number;
  readonly running: number;
  readonly paused: boolean;
  /** Measuring cannot go on for any photo; `resume` or `retry` tries again. */
  readonly trouble: { readonly code: 'no-workers'; readonly detail: string } | null;
}

/** Why there is no database to work with. */
export type StorageFailure =
  /** Neither https nor localhost: browsers offer no hashes and no locks there. */
  | { readonly code: 'insecure-context' }
  /** The browser's settings, or a private window, allow no store. */
  | { readonly code: 'forbidden' }
  /** The browser closed the database by itself: data cleared, disk full or broken. */
  | { readonly code: 'closed' }
  /** The database of an older version is as it was. */
  | { readonly code: 'upgrade-failed'; readonly detail: string }
  | { readonly code: 'not-opened'; readonly detail: string }
  | { readonly code: 'write-failed'; readonly detail: string };

/** How the database is. Only in `ready` and `full` is there anything to show. */
export type StorageState =
  /** `empty`: nothing was ever stored, so there is nothing to wait for but the start screen. */
  | { readonly state: 'opening'; readonly empty: boolean }
  | {
      readonly state: 'ready';
      /** Whether the browser promised not to clear the photos by itself. */
      readonly persisted: boolean;
      /** Tabs beside this one that have the same photos open; every one may read and write. */
      readonly otherTabs: number;
      /** ISO 8601 instant of the last completed write of this tab. */
      readonly savedAt: string | null;
      /** Whether this browser decodes photos to the pixels the figures were validated on. */
      readonly decoder: 'same' | 'differs' | 'unknown';
      /** Records of the store that cannot be read; kept as they are, and part of `exportRaw`. */
      readonly unreadableRecords: number;
      /** Photos that were kept here once and are gone without a person's doing; null where none are missed. */
      readonly lost: Kept | null;
    }
  /** Written by a newer version of this program: nothing is read or changed; `exportRaw` works. */
  | { readonly state: 'newer'; readonly storedVersion: number; readonly knownVersion: number }
  /** Another tab holds the database open in an older version; goes on by itself when that tab is closed. */
  | { readonly state: 'blocked' }
  | { readonly state: 'failed'; readonly failure: StorageFailure }
  /** The last write did not fit. What was stored before is still there and can be read and exported. */
  | { readonly state: 'full'; readonly usedBytes: number | null; readonly quotaBytes: number | null };

/** Why a file was not taken in. */
export type AddProblem =
  | PhotoProblem
  /** The browser could not read the file, e.g. because it was moved or its card was taken out. */
  | { readonly code: 'file-unreadable'; readonly detail: string }
  /** No room in the browser's storage. */
  | { readonly code: 'storage-full' }
  | { readonly code: 'storage-failed'; readonly detail: string };

export type AddedFile =
  | { readonly name: string; readonly state: 'added'; readonly photoId: string }
  | {
      readonly name: string;
      readonly state: 'duplicate';
      readonly photoId: string;
      readonly duplicateOf: string;
    }
  | { readonly name: string; readonly state: 'refused'; readonly problem: AddProblem };

/** Everything the screens may ask for. */
export interface Session {
  /** In the order they were added. */
  readonly photos: Observable<readonly PhotoSummary[]>;
  readonly progress: Observable<Progress>;
  readonly storageState: Observable<StorageState>;

  /** Takes photos in; measuring starts by itself. One answer a file, in the order given. */
  addFiles(files: readonly File[]): Promise<readonly AddedFile[]>;
  /** The bundled sample trial: its photos with their frames. Those already here are duplicates. */
  addSamplePhotos(): Promise<readonly AddedFile[]>;
  /** Every change is kept in the audit with old and new value. */
  changePhoto(id: string, change: PhotoChange): Promise<void>;
  removePhotos(ids: readonly string[]): Promise<void>;
  /**
   * What a screen needs to show one photo, and moves its measuring to the front.
   * `mask` is null until there is one: ask again with `mask` when the photo's `work` has become null.
   *
   * @throws Error named PhotoBytesMissing if the browser has lost the photo's bytes
   */
  openPhoto(id: string): Promise<{ bytes: ArrayBuffer; mask: LabelMask | null }>;
  /** The mask alone, e.g. after a new measurement. Made again if the cache was dropped: then null for the moment. */
  mask(id: string): Promise<LabelMask | null>;
  /** Null until the photo was decoded. */
  thumbnail(id: string): Promise<Blob | null>;

  /** Stops what runs and forgets what waits; figures made so far stay. */
  cancelAll(): Promise<void>;
  pause(): Promise<void>;
  resume(): Promise<void>;
  /** Measures these photos (again): failed ones, cancelled ones. */
  retry(ids: readonly string[]): Promise<void>;

  /** Planning the trial: a part of its own, loaded when it is first asked for. */
  openTrial(): Promise<TrialSession>;

  /** Opens a part that one screen needs, e.g. `openTeaching` of teaching.ts; whoever opens it stops it. */
  open<T>(part: OpenPart<T>): Promise<T>;

  /** All records as they stand, readable or not, as one JSON file (bytes as base64). */
  exportRaw(): Promise<Blob>;
  /** The person has read that photos are gone; it is not said again. */
  acknowledgeLoss(): void;
  /** Stops workers and closes the database. */
  close(): Promise<void>;
}
