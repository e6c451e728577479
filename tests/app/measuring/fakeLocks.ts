import type { Locks } from '../../../src/app/measuring/measuringRight.ts';
import type { PresenceLocks } from '../../../src/app/session/tabPresence.ts';

interface Request {
  readonly name: string;
  readonly tab: string;
  readonly whileHeld: () => Promise<void>;
  readonly settle: (error?: Error) => void;
}

/** The lock manager of a pretended browser with several tabs, after the Web Locks specification. */
export class FakeBrowserLocks {
  #held: Request[] = [];
  #waiting: Request[] = [];

  /** The lock manager as one tab sees it. */
  tab(tab: string): Locks & PresenceLocks {
    const request = (
      name: string,
      ...rest: [{ signal?: AbortSignal }, () => Promise<void>] | [() => Promise<void>]
    ): Promise<void> => {
      const whileHeld = rest.at(-1) as () => Promise<void>;
      const { signal } = rest.length === 2 ? rest[0] : {};
      return new Promise((resolve, reject) => {
        const settle = (error?: Error) => (error ? reject(error) : resolve());
        const one: Request = { name, tab, whileHeld, settle };
        signal?.addEventListener('abort', () => {
          if (!this.#waiting.includes(one)) return;
          this.#waiting = this.#waiting.filter((other) => other !== one);
          settle(new DOMException('given up', 'AbortError'));
        });
        this.#waiting.push(one);
        queueMicrotask(() => this.#grant());
      });
    };
    return {
      request: request as Locks['request'] & PresenceLocks['request'],
      query: async () => ({ held: this.#held.map(({ name }) => ({ name })) }),
    };
  }

  /** The tab is gone from one moment to the next: its locks are free. */
  kill(tab: string): void {
    this.#waiting = this.#waiting.filter((request) => request.tab !== tab);
    this.#held = this.#held.filter((request) => request.tab !== tab);
    this.#grant();
  }

  /** Somebody takes a lock by force. */
  steal(name: string): void {
    const stolen = this.#held.filter((request) => request.name === name);
    this.#held = this.#held.filter((request) => request.name !== name);
    for (const { settle } of stolen) settle(new DOMException('stolen', 'AbortError'));
  }

  #grant(): void {
    for (const request of [...this.#waiting]) {
      if (this.#held.some(({ name }) => name === request.name)) continue;
      this.#waiting = this.#waiting.filter((other) => other !== request);
      this.#held.push(request);
      request.whileHeld().then(() => {
        this.#held = this.#held.filter((other) => other !== request);
        request.settle();
        this.#grant();
      });
    }
  }
}
