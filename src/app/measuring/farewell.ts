/**
 * Remembers, past the end of a page, which runs it left in order. Must be written at once: a page that is being left
 * gets no answer from its database any more.
 */
export interface Farewell {
  /** @param claims of the runs that end with the page */
  leave(claims: readonly string[]): void;
  /** What pages left since this was asked last; it is forgotten by asking. */
  take(): ReadonlySet<string>;
}

/** Kept in the browser's local storage, which is written before the call returns. */
export function browserFarewell(
  name: string,
  storage: Pick<Storage, 'getItem' | 'setItem' | 'removeItem'>,
): Farewell {
  const take = () => {
    const left = (storage.getItem(name) ?? '').split('\n').filter((claim) => claim !== '');
    storage.removeItem(name);
    return new Set(left);
  };
  return {
    leave(claims) {
      if (claims.length > 0) storage.setItem(name, [...take(), ...claims].join('\n'));
    },
    take,
  };
}
