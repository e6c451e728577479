import type { LargeRecords } from '../archiveStore.ts';

/** The buffers of one photo's large records, for handing them over to another thread. */
export const largeBuffers = ({ photoBytes, thumbnails, automaticMasks }: LargeRecords): ArrayBuffer[] =>
  [photoBytes?.bytes, thumbnails?.jpeg, automaticMasks?.bytes].filter((buffer) => buffer !== undefined);
