import type { PhotoSummary } from '../../storage/photoSummary.ts';
import type { ProjectStore } from '../../storage/projectStore.ts';
import type { Written } from '../../storage/storageProblem.ts';
import type { LabelWorker } from '../measuring/labelWorker.ts';
import { type Observable, ObservableValue } from './observable.ts';
import type { PlacedTrialPhoto } from './placePhotos.ts';

/** Where looking for labels stands. */
export interface LabelsState {
  /** Photos that are still to be looked at. */
  readonly waiting: number;
  /** Why no more are looked at; the next start of the program tries again. */
  readonly trouble: string | null;
}

export interface TrialLabelsParts {
  readonly store: Pick<ProjectStore, 'photos'>;
  readonly photos: Observable<readonly PhotoSummary[]>;
  readonly startWorker: () => LabelWorker;
  readonly settle: (written: Written<unknown>) => void;
  readonly onError: (error: unknown) => void;
}

/** After so many deaths of the worker it is not started again. */
const MOST_DEATHS = 2;

/**
 * Reads plot labels in photos, one at a time and only while nothing is measured. The worker is there only while there are
 * photos to look at.
 */
export class TrialLabels {
  readonly state = new ObservableValue<LabelsState>({ waiting: 0, trouble: null });
  readonly #parts: TrialLabelsParts;
  readonly #stopListening: () => void;
  /** Photos to look at, as they were wanted last. */
  #wanted: readonly string[] = [];
  /** Photos over which the worker died, or whose bytes are gone. */
  readonly #givenUp = new Set<string>();
  #deaths = 0;
  #running = false;
  #stopped = false;
  #open: { readonly worker: LabelWorker; readonly death: Promise<never> } | null = null;

  constructor(parts: TrialLabelsParts) {
    this.#parts = parts;
    this.#stopListening = parts.photos.subscribe(() => this.#go());
  }

  /** Says which photos are to be looked at, in this order. */
  want(ids: readonly string[]): void {
    this.#wanted = ids;
    this.#note();
    this.#go();
  }

  stop(): void {
    this.#stopped = true;
    this.#stopListening();
    this.#endWorker();
  }

  #note(trouble = this.state.get().trouble): void {
    const waiting = this.#wanted.filter((id) => !this.#givenUp.has(id)).length;
    const before = this.state.get();
    if (waiting !== before.waiting || trouble !== before.trouble) this.state.set({ waiting, trouble });
  }

  #go(): void {
    if (this.#running || this.#stopped) return;
    this.#running = true;
    this.#readAll()
      .catch(this.#parts.onError)
      .finally(() => {
        this.#running = false;
      });
  }

  async #readAll(): Promise<void> {
    for (let next = this.#next(); next !== null; next = this.#next()) {
      const texts = await this.#read(next);
      if (this.#stopped) return;
      if (texts === null) this.#givenUp.add(next);
      else this.#parts.settle(await this.#parts.store.photos.keepLabel(next, texts));
      this.#wanted = this.#wanted.filter((id) => id !== next);
      this.#note();
    }
    this.#endWorker();
  }

  #next(): string | null {
    if (this.#stopped || this.#deaths >= MOST_DEATHS || isMeasuring(this.#parts.photos.get())) return null;
    return this.#wanted.find((id) => !this.#givenUp.has(id)) ?? null;
  }

  /** Null where the photo could not be looked at. */
  async #read(id: string): Promise<readonly string[] | null> {
    const bytes = await this.#parts.store.photos.bytes(id);
    if (!bytes || this.#stopped) return null;
    this.#open ??= started(this.#parts.startWorker());
    try {
      const outcome = await Promise.race([this.#open.worker.read(bytes), this.#open.death]);
      return outcome.ok ? outcome.texts : [];
    } catch (error) {
      this.#deaths += 1;
      this.#endWorker();
      if (this.#deaths >= MOST_DEATHS) this.#note(error instanceof Error ? error.message : String(error));
      return null;
    }
  }

  #endWorker(): void {
    this.#open?.worker.terminate();
    this.#open = null;
  }
}

function started(worker: LabelWorker) {
  const death = new Promise<never>((_, reject) => worker.onDeath((detail) => reject(new Error(detail))));
  // it may die while nobody waits for it
  death.catch(() => {});
  return { worker, death };
}

const isMeasuring = (photos: readonly PhotoSummary[]) =>
  photos.some(({ work }) => work === 'waiting' || work === 'running');

/** After so many photos without a label the trial seems to have none. */
const NONE_AFTER_PHOTOS = 20;

/**
 * The photos to look for labels in: those whose plot is doubtful, always. A plot in the file name is believed without, until a
 * label of this trial has turned up: then there are labels, and one may say that a name is wrong. A plot that is certain by
 * the walk is believed without when no photo had a label so far.
 */
export function photosToRead(
  photos: readonly PhotoSummary[],
  placed: ReadonlyMap<string, PlacedTrialPhoto>,
): string[] {
  const labelled = [...placed.values()].some(({ reasons }) =>
    reasons.some(({ code }) => code === 'by-label'),
  );
  const noneSoFar = !labelled && photos.filter((photo) => photo.labelTexts).length >= NONE_AFTER_PHOTOS;
  return photos
    .filter(({ id, labelTexts }) => {
      const place = placed.get(id);
      if (labelTexts !== null || !place || place.byPerson) return false;
      const byName = place.reasons.some(({ code }) => code === 'by-file-name');
      return labelled || place.certainty !== 'certain' || !(byName || noneSoFar);
    })
    .map(({ id }) => id);
}
