import { useCallback, useState } from 'react';

/**
 * A choice about the look of this device's screen, kept between visits. Not trial data: that is in the store.
 *
 * @param isAllowed guards against what an older version or a person left there
 */
export function usePreference<T extends string | number | boolean>(
  name: string,
  fallback: T,
  isAllowed: (value: unknown) => value is T,
): readonly [T, (value: T) => void] {
  const [value, setValue] = useState(() => storedPreference(name, fallback, isAllowed));
  const change = useCallback(
    (next: T) => {
      setValue(next);
      try {
        localStorage.setItem(keyOf(name), JSON.stringify(next));
      } catch (error) {
        console.warn('this choice is kept until the page closes only', error);
      }
    },
    [name],
  );
  return [value, change];
}

/** The same, for once and outside of components. */
export function storedPreference<T>(name: string, fallback: T, isAllowed: (value: unknown) => value is T): T {
  const stored = readStored(keyOf(name));
  return isAllowed(stored) ? stored : fallback;
}

const keyOf = (name: string) => `swardbook.${name}`;

function readStored(key: string): unknown {
  try {
    return JSON.parse(localStorage.getItem(key) ?? 'null');
  } catch {
    // private browsing without storage, or not JSON: the fallback is right
    return null;
  }
}

export const isBoolean = (value: unknown): value is boolean => typeof value === 'boolean';

/** A guard for one of a few words. */
export const oneOf =
  <T extends string>(...allowed: readonly T[]) =>
  (value: unknown): value is T =>
    allowed.includes(value as T);
