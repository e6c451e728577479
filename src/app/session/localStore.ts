/** The few calls of the browser's small store that are used. */
export type LocalStore = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

/**
 * The browser's small store; where its settings forbid one, a store that forgets with the page. Chromium then refuses
 * its database too, with an error that does not say why.
 */
export function browserLocalStore(): { store: LocalStore; forbidden: boolean } {
  try {
    return { store: globalThis.localStorage, forbidden: false };
  } catch {
    const entries = new Map<string, string>();
    const store: LocalStore = {
      getItem: (name) => entries.get(name) ?? null,
      setItem: (name, value) => entries.set(name, value),
      removeItem: (name) => entries.delete(name),
    };
    return { store, forbidden: true };
  }
}
