import type { LocalStore } from './localStore.ts';

/** What the database held when this browser last had it open. */
export interface Kept {
  readonly photos: number;
  /** ISO 8601 instant. */
  readonly at: string;
}

/**
 * Remembers, outside the database, that photos were kept, so that a database which the browser cleared or lost is not
 * taken for that of a person who is here for the first time.
 */
export interface KeptMark {
  read(): Kept | null;
  write(kept: Kept): void;
  forget(): void;
}

/** Kept in the browser's small store, which Chromium leaves alone when it clears databases to make room. */
export function browserKeptMark(name: string, store: LocalStore): KeptMark {
  return {
    read() {
      const [photos, at] = (store.getItem(name) ?? '').split(' ');
      return at && Number(photos) > 0 ? { photos: Number(photos), at } : null;
    },
    write({ photos, at }) {
      try {
        store.setItem(name, `${photos} ${at}`);
      } catch (error) {
        // a full store costs the mark, and nothing else
        console.warn('that photos are kept here could not be noted', error);
      }
    },
    forget: () => store.removeItem(name),
  };
}
