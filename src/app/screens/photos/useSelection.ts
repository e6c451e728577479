import { useCallback, useMemo, useRef, useState } from 'react';

export interface Selection<T> {
  readonly selected: readonly T[];
  has(id: string): boolean;
  /** Turns one on or off; with `range`, everything from the one before to this one takes this one's new state. */
  toggle(id: string, range: boolean): void;
  /** Turns these on, or off when all of them are on. */
  toggleAll(ids: readonly string[]): void;
  readonly selectAll: () => void;
  readonly clear: () => void;
}

/** Which of the photos are selected; those that are no longer there drop out. */
export function useSelection<T extends { readonly id: string }>(inOrder: readonly T[]): Selection<T> {
  const [ids, setIds] = useState<ReadonlySet<string>>(new Set());
  const last = useRef<string | null>(null);
  const selected = useMemo(() => inOrder.filter(({ id }) => ids.has(id)), [inOrder, ids]);
  const selectAll = useCallback(() => setIds(new Set(inOrder.map(({ id }) => id))), [inOrder]);
  const clear = useCallback(() => setIds(new Set()), []);
  return {
    selected,
    has: (id) => ids.has(id),
    toggle(id, range) {
      setIds(withChange(ids, range ? between(inOrder, last.current, id) : [id], !ids.has(id)));
      last.current = id;
    },
    toggleAll: (some) => setIds(withChange(ids, some, !some.every((id) => ids.has(id)))),
    selectAll,
    clear,
  };
}

function withChange(ids: ReadonlySet<string>, changed: readonly string[], on: boolean): ReadonlySet<string> {
  const next = new Set(ids);
  for (const id of changed) {
    if (on) next.add(id);
    else next.delete(id);
  }
  return next;
}

/** The ids from one to another, both included, whichever comes first. */
function between(inOrder: readonly { readonly id: string }[], from: string | null, to: string): string[] {
  const ids = inOrder.map(({ id }) => id);
  const end = ids.indexOf(to);
  const start = from === null || !ids.includes(from) ? end : ids.indexOf(from);
  return ids.slice(Math.min(start, end), Math.max(start, end) + 1);
}
