/**
 * Which patches of one photo are in force and which were taken back, by id; the patches themselves are in the store.
 *
 * Without limit. Only edits belong here: moving the view, choosing a class and loading do not.
 */
export interface EditHistory {
  /** In the order in which they were made; the last is undone next. */
  readonly done: readonly string[];
  /** The last is redone next. */
  readonly undone: readonly string[];
}

export const NO_EDITS: EditHistory = { done: [], undone: [] };

/**
 * Adds a new edit. What was taken back before it can no longer be redone.
 *
 * @returns the history, and the ids that left it
 * @throws RangeError if the id is in the history already
 */
export function recordEdit(
  history: EditHistory,
  patchId: string,
): { readonly history: EditHistory; readonly forgotten: readonly string[] } {
  if (history.done.includes(patchId) || history.undone.includes(patchId)) {
    throw new RangeError(`patch ${patchId} is in the history already`);
  }
  return { history: { done: [...history.done, patchId], undone: [] }, forgotten: history.undone };
}

/** One step of undo or redo: the patch to apply and the history once it is applied. */
export interface HistoryStep {
  readonly patchId: string;
  readonly history: EditHistory;
}

/** The step back: apply the inverse of its patch. Null when nothing is left to undo. */
export function undoStep({ done, undone }: EditHistory): HistoryStep | null {
  const patchId = done.at(-1);
  if (patchId === undefined) return null;
  return { patchId, history: { done: done.slice(0, -1), undone: [...undone, patchId] } };
}

/** The step forward: apply its patch. Null when nothing is left to redo. */
export function redoStep({ done, undone }: EditHistory): HistoryStep | null {
  const patchId = undone.at(-1);
  if (patchId === undefined) return null;
  return { patchId, history: { done: [...done, patchId], undone: undone.slice(0, -1) } };
}
