import type { AssignmentReason } from '../../core/trial/assignPhotos.ts';
import type { PhotoSummary } from '../../storage/photoSummary.ts';
import type { ProjectStore } from '../../storage/projectStore.ts';
import type { Written } from '../../storage/storageProblem.ts';
import type { LabelWorker } from '../measuring/labelWorker.ts';
import { type Observable, ObservableValue } from './observable.ts';
import { NO_PLACES, type PlacedTrialPhoto, placePhotos, type TrialPhotosState } from './placePhotos.ts';
import { photosToRead, TrialLabels } from './trialLabels.ts';
import type { TrialState } from './trialState.ts';

/** While photos come in, their places are looked at this often. */
const PAUSE_MS = 250;

interface TrialPhotosParts {
  readonly store: ProjectStore;
  readonly photos: Observable<readonly PhotoSummary[]>;
  readonly trial: Observable<TrialState>;
  readonly startLabelWorker: () => LabelWorker;
  readonly settle: (written: Written<unknown>) => void;
  readonly onError: (error: unknown) => void;
}

/** Keeps the places of photos up to date, and writes down those that are certain. */
export class TrialPhotos {
  readonly state = new ObservableValue<TrialPhotosState>(NO_PLACES);
  readonly labels: TrialLabels;
  readonly #parts: TrialPhotosParts;
  readonly #stops: (() => void)[];
  #known = '';
  #plan: TrialState | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #writing = false;
  /** Something changed while it was written. */
  #again = false;

  constructor(parts: TrialPhotosParts) {
    this.#parts = parts;
    this.labels = new TrialLabels({ ...parts, startWorker: parts.startLabelWorker });
    this.#stops = [parts.photos.subscribe(this.#soon), parts.trial.subscribe(this.#update)];
    this.#update();
  }

  stop(): void {
    clearTimeout(this.#timer);
    for (const stop of this.#stops) stop();
    this.labels.stop();
  }

  /** Photos come in one by one, and weighing a thousand of them together takes longer than a frame. */
  readonly #soon = (): void => {
    this.#timer ??= setTimeout(this.#update, PAUSE_MS);
  };

  readonly #update = (): void => {
    clearTimeout(this.#timer);
    this.#timer = undefined;
    const trial = this.#parts.trial.get();
    const photos = this.#parts.photos.get();
    if (trial.state !== 'open') {
      this.#plan = null;
      this.state.set(NO_PLACES);
      this.labels.want([]);
      return;
    }
    // figures change a photo a hundred times as often as what is looked at here
    const known = photos.map(placeFacts).join('\n');
    if (known === this.#known && trial === this.#plan) return;
    this.#known = known;
    this.#plan = trial;
    const state = placePhotos(trial.plan, trial.photoRules, photos);
    this.state.set(state);
    this.labels.want(photosToRead(photos, state.photos));
    void this.#writeDown(photos).catch(this.#parts.onError);
  };

  /** Lists and figures of the whole program go by what the photo's record says. */
  async #writeDown(photos: readonly PhotoSummary[]): Promise<void> {
    this.#again = this.#writing;
    if (this.#writing) return;
    this.#writing = true;
    try {
      for (const { id, plot, place, ratingDate, namedBy } of photos) {
        const now = this.state.get().photos.get(id);
        if (!now || now.byPerson) continue;
        if (now.certainty !== 'certain' && !(isFound(namedBy) && plot !== null)) continue;
        const to = whatToWrite(now, this.state.get().placesPerPlot);
        if (to.plot === plot && to.place === place && to.ratingDate === ratingDate) continue;
        this.#parts.settle(await this.#parts.store.photos.change(id, to, null));
      }
    } finally {
      this.#writing = false;
    }
    if (this.#again) await this.#writeDown(this.#parts.photos.get());
  }
}

/** Whether the program found the plot, and not a person or the name at first sight. */
const isFound = (namedBy: PhotoSummary['namedBy']) => namedBy === 'walking-order' || namedBy === 'label';

/** What the record says of a photo that is certain; of one that was and is no more, that its plot is not known. */
function whatToWrite({ plot, place, ratingDate, certainty, reasons }: PlacedTrialPhoto, places: number) {
  const has = (code: AssignmentReason['code']) => reasons.some((reason) => reason.code === code);
  const namedBy = has('by-label') ? 'label' : has('by-file-name') ? 'file-name' : 'walking-order';
  if (certainty !== 'certain') return { plot: null, place: null, ratingDate, namedBy } as const;
  return { plot, place: places === 1 ? null : place, ratingDate, namedBy } as const;
}

const placeFacts = (photo: PhotoSummary) => {
  const { id, name, takenAt, camera, labelTexts, namedBy, plot, place, ratingDate } = photo;
  const facts = [
    id,
    name,
    takenAt,
    photo.replaced !== null,
    camera?.device,
    labelTexts,
    namedBy,
    plot,
    place,
    ratingDate,
  ];
  return facts.join('\t');
};
