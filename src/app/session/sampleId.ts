/** Ids of everything in the sample trial begin like this; those a browser makes are UUIDs. */
export const SAMPLE_PREFIX = 'sample-';

export const isSampleId = (id: string): boolean => id.startsWith(SAMPLE_PREFIX);
