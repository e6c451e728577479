import type { Translation } from './translation.ts';

/** German: formal and plain. */
export const german: Translation = {};
