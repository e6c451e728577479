/** The few calls of the browser's small store that are used. */
export type LocalStore = Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>;

/** The browser's small store; where its settings forbid one, a store that forgets with the page. */
export function browserLocalStore(): LocalStore {
  try {
    return globalThis.localStorage;
  } catch {
    const entries = new Map<string, string>();
    return {
      getItem: (name) => entries.get(name) ?? null,
      setItem: (name, value) => entries.set(name, value),
      removeItem: (name) => entries.delete(name),
    };
  }
}
