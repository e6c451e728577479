import type { PhotoCheck } from '../../core/quality/checkPhoto.ts';
import type { PhotoArea } from '../../storage/areaStore.ts';
import { NewestOnly } from './newestOnly.ts';
import { ObservableValue } from './observable.ts';
import type { OpenPart, PartContext } from './sessionPart.ts';

export type { PhotoArea } from '../../storage/areaStore.ts';

/** What of one photo is measured, and what was found in it. */
export interface PhotoAreaState {
  /** As it was last asked for; the store may still be at it. */
  readonly area: PhotoArea;
  /** Null until the photo was looked over. */
  readonly check: PhotoCheck | null;
  /** What frames of the photo's date or trial measure inside; null where nobody said. */
  readonly frameSizeMm: readonly [widthMm: number, heightMm: number] | null;
  readonly canUndo: boolean;
  /** What went wrong when storing. */
  readonly failure: string | null;
}

type Stored = Pick<PhotoAreaState, 'area' | 'check' | 'frameSizeMm'>;

async function storedOf({ store }: PartContext, photoId: string): Promise<Stored> {
  const { areas, checks } = store;
  const [area, check, frameSizeMm] = await Promise.all([
    areas.of(photoId),
    checks.of(photoId),
    areas.frameSizeMm(photoId),
  ]);
  return { area, check, frameSizeMm };
}

/** The measured area of one photo while a person settles it. */
export class PhotoAreaSession {
  readonly state: ObservableValue<PhotoAreaState>;
  readonly #context: PartContext;
  readonly #photoId: string;
  readonly #writes: NewestOnly<string, PhotoArea>;
  #writing = 0;
  #past: readonly PhotoArea[] = [];
  #stopWatching: () => void = () => {};

  constructor(context: PartContext, photoId: string, found: Stored) {
    this.#context = context;
    this.#photoId = photoId;
    this.state = new ObservableValue<PhotoAreaState>({ ...found, canUndo: false, failure: null });
    this.#writes = new NewestOnly(async (id, wanted) => {
      const written = await context.store.areas.change([id], () => wanted, null);
      context.settle(written);
      if (!written.written) throw new Error(written.problem.code);
    });
    let last = this.#summary();
    this.#stopWatching = context.photos.subscribe(() => {
      const now = this.#summary();
      if (now === last) return;
      last = now;
      void this.#reload();
    });
  }

  /** Changes the area; the photo is measured again where its figure hangs on that. Quick steps build on each other. */
  change(step: (area: PhotoArea) => PhotoArea): void {
    const { area } = this.state.get();
    const next = step(area);
    if (next === area) return;
    this.#past = [...this.#past, area];
    void this.#ask(next);
  }

  undo(): void {
    const before = this.#past.at(-1);
    if (!before) return;
    this.#past = this.#past.slice(0, -1);
    void this.#ask(before);
  }

  /** Gives all frames of the photo's rating date this size, and those still to be found. */
  async sizeForDate(sizeMm: readonly [number, number]): Promise<void> {
    const { photos, store } = this.#context;
    const date = this.#summary()?.ratingDate;
    if (!date) return;
    const ids = photos.get().flatMap(({ id, ratingDate }) => (ratingDate === date ? [id] : []));
    this.#context.goOn();
    this.#context.settle(await store.areas.sizeFrames(date, ids, sizeMm, null));
  }

  stop(): void {
    this.#stopWatching();
  }

  #summary() {
    return this.#context.photos.get().find(({ id }) => id === this.#photoId);
  }

  async #ask(area: PhotoArea): Promise<void> {
    this.#set({ area, failure: null });
    this.#writing += 1;
    this.#context.goOn();
    try {
      await this.#writes.write(this.#photoId, area);
    } catch (error) {
      this.#set({ failure: (error as Error).message });
    } finally {
      this.#writing -= 1;
    }
    await this.#reload();
  }

  /** What the store holds now, unless something newer is on its way there. */
  async #reload(): Promise<void> {
    try {
      const stored = await storedOf(this.#context, this.#photoId);
      if (this.#writing === 0) this.#set(stored);
    } catch (error) {
      this.#context.fail(error);
    }
  }

  #set(change: Partial<PhotoAreaState>): void {
    this.state.set({ ...this.state.get(), ...change, canUndo: this.#past.length > 0 });
  }
}

/** Opens the measured area of a photo. */
export const openPhotoArea =
  (photoId: string): OpenPart<PhotoAreaSession> =>
  async (context) => {
    return new PhotoAreaSession(context, photoId, await storedOf(context, photoId));
  };
