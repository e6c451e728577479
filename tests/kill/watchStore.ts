/** A state of a photo's corrections, as the page handed it to the store. */
export interface WatchedLayer {
  readonly revision: number;
  /** The layer's bytes, base64. */
  readonly layer: string;
}

/** What the page tells while it lives: `put` when a state is handed over, `kept` when its transaction has completed. */
export type StoreReport = { readonly kind: 'put' | 'kept' } & WatchedLayer;

/**
 * Runs in the page before its own code: listens to the browser's database itself, so that nothing in the program has to
 * tell of its own writes.
 */
export function watchStore(): void {
  const report = (message: StoreReport) =>
    (window as unknown as { reportStore?: (message: StoreReport) => void }).reportStore?.(message);
  const { put } = IDBObjectStore.prototype;
  IDBObjectStore.prototype.put = function (value: unknown, key?: IDBValidKey) {
    const request = key === undefined ? put.call(this, value) : put.call(this, value, key);
    if (this.name === 'corrections') {
      const { revision, layer, figureDue } = value as {
        revision: number;
        layer: ArrayBuffer;
        figureDue?: 1;
      };
      // without it, only the figure was noted: the layer is as it was
      if (figureDue === 1) {
        let text = '';
        for (const byte of new Uint8Array(layer)) text += String.fromCharCode(byte);
        const watched = { revision, layer: btoa(text) };
        report({ kind: 'put', ...watched });
        this.transaction.addEventListener('complete', () => report({ kind: 'kept', ...watched }));
      }
    }
    return request;
  };
}
