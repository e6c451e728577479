import { type Observable, ObservableValue } from '../session/observable.ts';

/** Whether the program itself is on this device, so that it opens without a network. */
export interface OfflineState {
  /**
   * `none`: this browser or this address keeps no programs. `fetching`: its files are on their way. `ready`: all parts are
   * here. `stopped`: they could not be fetched; tried again when the page is next opened.
   */
  readonly program: 'none' | 'fetching' | 'ready' | 'stopped';
  /** A newer version is here and waits to be used. */
  readonly update: boolean;
}

type Container = Pick<ServiceWorkerContainer, 'register' | 'addEventListener' | 'controller'>;

/** How often a page that stays open asks for a newer version. */
const ASK_EVERY_MS = 60 * 60 * 1000;

/** Keeps the program on this device, and tells of newer versions; it never changes the version that is in use by itself. */
export class OfflineProgram {
  readonly #state = new ObservableValue<OfflineState>({ program: 'none', update: false });
  readonly #container: Container | undefined;
  readonly #reload: () => void;
  #waiting: ServiceWorker | null = null;

  /** @param container undefined where the browser has no service workers or the address is not secure */
  constructor(container: Container | undefined, reload: () => void) {
    this.#container = container;
    this.#reload = reload;
  }

  get state(): Observable<OfflineState> {
    return this.#state;
  }

  async start(): Promise<void> {
    if (!this.#container) return;
    this.#note({ program: 'fetching' });
    try {
      const registration = await this.#container.register('./service-worker.js');
      this.#watch(registration);
    } catch (error) {
      console.warn('the program could not be kept for use without a network', error);
      this.#note({ program: 'stopped' });
    }
  }

  /** Uses the newer version in this tab, now. Other tabs keep theirs until they are opened anew. */
  takeUpdate(): void {
    this.#container?.addEventListener('controllerchange', () => this.#reload(), { once: true });
    this.#waiting?.postMessage('use-now');
  }

  #watch(registration: ServiceWorkerRegistration): void {
    const look = () => {
      const { active, waiting, installing } = registration;
      // it is "active" while it still gets ready
      if (active?.state === 'activated') this.#note({ program: 'ready' });
      else active?.addEventListener('statechange', look, { once: true });
      this.#waiting = active ? waiting : null;
      this.#note({ update: this.#waiting !== null });
      installing?.addEventListener('statechange', () => {
        if (installing.state === 'redundant' && !registration.active) this.#note({ program: 'stopped' });
        else look();
      });
    };
    registration.addEventListener('updatefound', look);
    // a first worker passes by "waiting" on its way to "active"
    this.#container!.addEventListener('controllerchange', look);
    look();
    setInterval(() => void registration.update().catch(() => undefined), ASK_EVERY_MS);
  }

  #note(facts: Partial<OfflineState>): void {
    const before = this.#state.get();
    const next = { ...before, ...facts };
    if (next.program !== before.program || next.update !== before.update) this.#state.set(next);
  }
}
