import type { OpenPart } from './sessionPart.ts';

/** Confirms the frames that the program found in these photos; others stay as they are. */
export const confirmFrames =
  (photoIds: readonly string[]): OpenPart<void> =>
  async ({ store, settle }) => {
    const written = await store.areas.change(
      photoIds,
      (area) => (area.frameBy === 'finder' ? { ...area, frameBy: 'finder-confirmed' } : area),
      null,
    );
    settle(written);
  };
