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

/**
 * The same value, told of at most once in a while: a first change at once, those that follow it soon together at the end of
 * the pause. For lists that a running batch changes many times a second.
 */
export function paced<T>(source: Observable<T>, pauseMs: number): Observable<T> {
  return {
    get: source.get,
    subscribe(listener) {
      let timer: ReturnType<typeof setTimeout> | null = null;
      let changedMeanwhile = false;
      const tell = () => {
        timer = setTimeout(() => {
          timer = null;
          if (changedMeanwhile) tell();
        }, pauseMs);
        changedMeanwhile = false;
        listener();
      };
      const stop = source.subscribe(() => {
        if (timer === null) tell();
        else changedMeanwhile = true;
      });
      return () => {
        stop();
        if (timer !== null) clearTimeout(timer);
      };
    },
  };
}
