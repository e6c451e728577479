import type { ArchiveStore } from '../../../storage/archiveStore.ts';

/** Reads and keeps the large records of one photo after the other. Bytes that were kept may be gone from their records. */
export type LargeRecordStore = Pick<ArchiveStore, 'large' | 'stage'>;

/** One that has to be ended; reading or keeping more begins anew. */
export interface OpenLargeRecords extends LargeRecordStore {
  end(): Promise<void>;
}
