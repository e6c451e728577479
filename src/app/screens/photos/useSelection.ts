import { useCallback, useMemo, useRef, useState } from 'react';

export interface Selection<T> {
  readonly selected: readonly T[];
  has(id: string): boolean;
  /** Turns one on or off; with `range`, everything from the one before to this one takes this one's new state. */
  readonly toggle: (id: string, range: boolean) => void;
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
  const latest = useRef(inOrder);
  latest.current = inOrder;
  // the same from render to render, and built on what is selected now: cards that stay as they are keep an old one
  const toggle = useCallback((id: string, range: boolean) => {
    const from = last.current;
    last.current = id;
    setIds((now) => withChange(now, range ? between(latest.current, from, id) : [id], !now.has(id)));
  }, []);
  return {
    selected,
    has: (id) => ids.has(id),
    toggle,
    toggleAll: (some) => setIds((now) => withChange(now, some, !some.every((id) => now.has(id)))),
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
