import type { TabChannel } from '../../storage/tabChannel.ts';

/** The part of the browser's lock manager that tabs count each other by. */
export interface PresenceLocks {
  request(name: string, whileHeld: () => Promise<void>): Promise<unknown>;
  query(): Promise<{ held?: readonly { name?: string }[] }>;
}

/**
 * Counts the tabs that show the same project. Each holds a lock of its own name as long as it lives, so that a tab
 * that crashed does not count; the channel only says when to count anew.
 */
export class TabPresence {
  readonly #locks: PresenceLocks;
  readonly #channel: TabChannel;
  readonly #prefix: string;
  readonly #id: string;
  readonly #left = new Set<string>();
  readonly #onCount: (otherTabs: number) => void;
  #leave: () => void = () => {};

  constructor(
    locks: PresenceLocks,
    channel: TabChannel,
    { project, tabId, onCount }: { project: string; tabId: string; onCount: (otherTabs: number) => void },
  ) {
    this.#locks = locks;
    this.#channel = channel;
    this.#prefix = `${project} tab `;
    this.#id = tabId;
    this.#onCount = onCount;
  }

  start(): void {
    this.#channel.listen((message) => {
      const { kind, tabId } = (message ?? {}) as { kind?: string; tabId?: string };
      if (kind === 'tab-left' && tabId) this.#left.add(tabId);
      if (kind === 'tab-came' || kind === 'tab-left') this.count();
    });
    void this.#locks.request(this.#prefix + this.#id, () => {
      this.#channel.send({ kind: 'tab-came', tabId: this.#id });
      this.count();
      return new Promise((resolve) => {
        this.#leave = resolve;
      });
    });
  }

  /** Counts now, e.g. because the page came to the front. */
  count(): void {
    this.#locks.query().then(
      ({ held = [] }) => {
        const tabs = held.flatMap(({ name }) =>
          name?.startsWith(this.#prefix) ? [name.slice(this.#prefix.length)] : [],
        );
        this.#onCount(tabs.filter((id) => id !== this.#id && !this.#left.has(id)).length);
      },
      (error) => console.error('the tabs could not be counted', error),
    );
  }

  stop(): void {
    this.#channel.send({ kind: 'tab-left', tabId: this.#id });
    this.#leave();
  }
}
