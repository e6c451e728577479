/** A value that waits for its turn to be written. */
interface Waiting<Value> {
  value: Value;
  readonly written: Promise<void>;
}

/**
 * Writes values by key, one at a time a key; of those that come while one is being written only the newest is written.
 * For gestures that report faster than a durable write takes.
 */
export class NewestOnly<Key, Value> {
  readonly #write: (key: Key, value: Value) => Promise<void>;
  readonly #running = new Map<Key, Promise<void>>();
  readonly #waiting = new Map<Key, Waiting<Value>>();

  constructor(write: (key: Key, value: Value) => Promise<void>) {
    this.#write = write;
  }

  /** @returns when this value, or a newer one in its place, is written */
  write(key: Key, value: Value): Promise<void> {
    const waiting = this.#waiting.get(key);
    if (waiting) {
      waiting.value = value;
      return waiting.written;
    }
    const running = this.#running.get(key);
    if (!running) return this.#start(key, value);
    const written = running
      .catch(() => undefined)
      .then(() => {
        const newest = this.#waiting.get(key)!;
        this.#waiting.delete(key);
        return this.#start(key, newest.value);
      });
    this.#waiting.set(key, { value, written });
    return written;
  }

  #start(key: Key, value: Value): Promise<void> {
    const done = this.#write(key, value).finally(() => {
      if (this.#running.get(key) === done) this.#running.delete(key);
    });
    this.#running.set(key, done);
    return done;
  }
}
