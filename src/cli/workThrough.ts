/** Works on all items in their order, as many at once as said; begins none once `stopped` is aborted. */
export async function workThrough<Item>(
  items: Iterable<Item>,
  atOnce: number,
  stopped: AbortSignal,
  work: (item: Item) => Promise<void>,
): Promise<void> {
  const queue = items[Symbol.iterator]();
  const next = async (): Promise<void> => {
    for (let turn = queue.next(); !turn.done && !stopped.aborted; turn = queue.next()) await work(turn.value);
  };
  await Promise.all(Array.from({ length: atOnce }, next));
}
