/** Why a write did not happen. Nothing of it was stored: a write is one transaction, done wholly or not at all. */
export type StorageProblem =
  | { readonly code: 'quota-exceeded' }
  /** The database was closed, by this tab or because a newer version of the program took it over. */
  | { readonly code: 'database-closed' }
  | { readonly code: 'write-failed'; readonly detail: string };

export type Written<T> =
  | { readonly written: true; readonly value: T }
  | { readonly written: false; readonly problem: StorageProblem };

/** Names of an error and of what caused it: IndexedDB wraps the true cause of an aborted transaction in different places. */
export function namesOf(error: unknown): string[] {
  const names: string[] = [];
  for (let next = error, depth = 0; next instanceof Object && depth < 4; depth += 1) {
    const { name, inner, cause } = next as { name?: unknown; inner?: unknown; cause?: unknown };
    if (typeof name === 'string') names.push(name);
    next = inner ?? cause;
  }
  return names;
}

export function storageProblemOf(error: unknown): StorageProblem {
  const names = namesOf(error);
  if (names.includes('QuotaExceededError')) return { code: 'quota-exceeded' };
  if (names.includes('DatabaseClosedError')) return { code: 'database-closed' };
  return { code: 'write-failed', detail: error instanceof Error ? error.message : String(error) };
}
