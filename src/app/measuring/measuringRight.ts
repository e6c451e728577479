/** The part of the browser's lock manager that is used. */
export interface Locks {
  request(
    name: string,
    options: { readonly signal?: AbortSignal; readonly steal?: boolean },
    whileHeld: () => Promise<void>,
  ): Promise<unknown>;
}

/**
 * The right to measure, which one tab of the browser has at a time: so no photo is measured twice, and a phone has
 * one worker and not one a tab. A tab that waits gets it when the other is closed, reloaded or dies.
 *
 * Even if two tabs thought they had it, results are stored only under the claim that holds (JobQueue).
 */
export class MeasuringRight {
  readonly #locks: Locks;
  readonly #name: string;
  #release: (() => void) | null = null;
  #waiting: AbortController | null = null;

  constructor(locks: Locks, name: string) {
    this.#locks = locks;
    this.#name = name;
  }

  /**
   * Waits for the right and keeps it until `release`.
   *
   * @param onGranted called once, when this tab has it
   * @param onLost called if the browser takes it away
   */
  acquire(onGranted: () => void, onLost: () => void): void {
    const waiting = new AbortController();
    this.#waiting = waiting;
    let granted = false;
    this.#locks
      .request(this.#name, { signal: waiting.signal }, () => {
        granted = true;
        onGranted();
        return new Promise<void>((resolve) => {
          this.#release = resolve;
        });
      })
      .catch((error: Error) => {
        // waiting was given up, or the lock was taken by force
        if (granted) onLost();
        else if (error.name !== 'AbortError') throw error;
      });
  }

  release(): void {
    this.#waiting?.abort();
    this.#release?.();
    this.#release = null;
  }
}
