import type { LargeRecords } from '../src/storage/archiveStore.ts';
import type { Written } from '../src/storage/storageProblem.ts';

/** The worker that reads and keeps the large records of photos, as the page sees it. Buffers are transferred. */
export interface LargeRecordsApi {
  /** @param project name of the database, which is open in the page already */
  open(project: string): Promise<void>;
  /** As ArchiveStore.large. */
  read(photoId: string): Promise<LargeRecords>;
  /** As ArchiveStore.stage. The sender no longer owns the bytes. */
  stage(photoId: string, records: LargeRecords): Promise<Written<boolean>>;
  /** Lets the database go. */
  close(): void;
}
