/** A value that can be read now and watched. Fits React's useSyncExternalStore. */
export interface Observable<T> {
  get(): T;
  /** @returns the way to stop listening */
  subscribe(listener: () => void): () => void;
}

/** An observable that its owner sets. Listeners hear of a new value once, and not of the same one again. */
export class ObservableValue<T> implements Observable<T> {
  #value: T;
  readonly #listeners = new Set<() => void>();

  constructor(value: T) {
    this.#value = value;
  }

  readonly get = (): T => this.#value;

  readonly subscribe = (listener: () => void): (() => void) => {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  };

  set(value: T): void {
    if (Object.is(value, this.#value)) return;
    this.#value = value;
    for (const listener of [...this.#listeners]) listener();
  }
}
