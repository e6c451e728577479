import type { Written } from './storageProblem.ts';
import type { StoreContext } from './storeContext.ts';

/** Settings of the program, by name. What a value means is known to whoever reads it. */
export interface Settings {
  /** Whether measuring was paused by hand; it stays so after a reload. */
  readonly 'measuring-paused': boolean;
  /** Rating dates whose strokes also teach for another, by that one. */
  readonly 'strokes-taken-over': Readonly<Record<string, readonly string[]>>;
  /** Inner size of the frames of a rating date, in mm, as a person gave it. */
  readonly 'frame-sizes': Readonly<Record<string, readonly [widthMm: number, heightMm: number]>>;
  /** What the browser answered when it was asked to keep the data. */
  readonly 'storage-persisted': boolean;
}

export class SettingStore {
  readonly #context: StoreContext;

  constructor(context: StoreContext) {
    this.#context = context;
  }

  /** Null where it was never set. */
  async get<Name extends keyof Settings>(name: Name): Promise<Settings[Name] | null> {
    const record = await this.#context.read(['settings'], ({ settings }) => settings.get(name));
    return (record?.value ?? null) as Settings[Name] | null;
  }

  set<Name extends keyof Settings>(name: Name, value: Settings[Name]): Promise<Written<void>> {
    return this.#context.write(
      ['settings'],
      ({ settings }) => settings.put({ name, value }),
      () => ({ settings: [name] }),
    );
  }
}
