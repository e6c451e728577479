import { type AssignmentReason, assignPhotos, type PhotoAssignment } from '../../core/trial/assignPhotos.ts';
import { type BoardCell, photoBoard } from '../../core/trial/photoBoard.ts';
import { plotKey } from '../../core/trial/plot.ts';
import { resolveTimings } from '../../core/trial/resolveTimings.ts';
import type { TrialPlan } from '../../core/trial/trialPlan.ts';
import { walkingOrder } from '../../core/trial/walkingOrder.ts';
import type { ProjectStore } from '../../storage/projectStore.ts';
import type { PhotoRules } from '../../storage/records/trialRecords.ts';
import type { Written } from '../../storage/storageProblem.ts';
import type { LabelWorker } from '../measuring/labelWorker.ts';
import { type Observable, ObservableValue } from './observable.ts';
import type { PhotoSummary } from './session.ts';
import { photosToRead, TrialLabels } from './trialLabels.ts';
import type { TrialState } from './trialSession.ts';

/** A photo as the board shows it. */
export interface PlacedTrialPhoto extends Omit<PhotoAssignment, 'reasons'> {
  readonly reasons: readonly AssignmentReason[];
  /** A person said where it belongs. */
  readonly byPerson: boolean;
}

export interface TrialPhotosState {
  readonly photos: ReadonlyMap<string, PlacedTrialPhoto>;
  /** Plots in walking order, within them places, within them rating dates. */
  readonly cells: readonly BoardCell[];
  /** Photos without a cell. */
  readonly unplaced: readonly string[];
  readonly ratingDates: readonly string[];
  readonly plots: readonly string[];
  readonly placesPerPlot: number;
}

const EMPTY: TrialPhotosState = {
  photos: new Map(),
  cells: [],
  unplaced: [],
  ratingDates: [],
  plots: [],
  placesPerPlot: 1,
};

/** Photos that wait for a person: without a cell, doubtful, or double. Analyses do without them. */
export function heldPhotos({ cells, unplaced }: TrialPhotosState): ReadonlySet<string> {
  const waiting = cells.filter(({ state }) => state === 'doubtful' || state === 'double');
  return new Set([...unplaced, ...waiting.flatMap(({ photos }) => photos)]);
}

/** Days of the trial's ratings, in order; those that wait for something have none. */
export function ratingDatesOf(plan: TrialPlan): string[] {
  const days = [...resolveTimings(plan).ratings.values()].flatMap((rating) =>
    'day' in rating ? [rating.day] : [],
  );
  return [...new Set(days)].sort();
}

/**
 * Where every photo of the project belongs in the trial. What a person said stands; the rest is weighed together, and
 * what is not certain is held.
 */
export function placePhotos(
  plan: TrialPlan,
  { fileNamePatterns, walk, orderTrusted, dateOfUndated = null }: PhotoRules,
  all: readonly PhotoSummary[],
): TrialPhotosState {
  // a photo that was replaced belongs nowhere, and nobody is asked about it
  const photos = all.filter(({ replaced }) => replaced === null);
  const plots = walkingOrder(plan.plots, walk).map(({ plot }) => plot);
  const ratingDates = ratingDatesOf(plan);
  const placesPerPlot = plan.framePlan?.placesPerPlot ?? 1;
  if (plots.length === 0) return { ...EMPTY, ratingDates, placesPerPlot };
  const spelling = new Map(plots.map((plot) => [plotKey(plot), plot]));
  const byHand = photos
    .filter(({ namedBy }) => namedBy === 'person')
    .map(({ id, plot, place, ratingDate }): PlacedTrialPhoto => {
      const known = plot === null ? null : (spelling.get(plotKey(plot)) ?? null);
      const at = place ?? (placesPerPlot === 1 ? 1 : null);
      const whole = known !== null && at !== null && ratingDate !== null;
      return {
        photo: id,
        plot: known,
        place: at,
        ratingDate,
        certainty: whole ? 'certain' : 'doubtful',
        probability: known === null ? 0 : 1,
        reasons: [],
        byPerson: true,
      };
    });
  const alreadyThere = byHand.flatMap(({ photo, plot, place, ratingDate }) =>
    plot === null || place === null || ratingDate === null
      ? []
      : [{ photo, plot, place, ratingDate, sha256: null }],
  );
  const assigned = assignPhotos(
    photos
      .filter(({ namedBy }) => namedBy !== 'person')
      .map(({ id, name, takenAt, camera, labelTexts }) => ({
        photo: id,
        fileName: name,
        captureTime: takenAt ?? camera?.unreadableTime ?? null,
        utcOffsetMinutes: camera?.utcOffsetMinutes ?? null,
        device: camera?.device ?? null,
        labelTexts: labelTexts ?? [],
        sha256: null,
      })),
    {
      trialCode: plan.trial.code,
      walkingOrder: plots,
      placesPerPlot,
      ratingDates,
      fileNamePatterns,
      orderTrusted,
      dateOfUndated,
      alreadyThere,
    },
  ).map((assignment): PlacedTrialPhoto => ({ ...assignment, byPerson: false }));
  const weighed = [...byHand, ...assigned];
  const placed = new Map(weighed.map((photo) => [photo.photo, photo]));
  const board = photoBoard(weighed, plots, placesPerPlot, ratingDates);
  // several photos of a cell that a person put there are subsamples, not a mistake
  const cells = board.cells.map((cell) =>
    cell.state === 'double' && cell.photos.every((photo) => placed.get(photo)!.byPerson)
      ? { ...cell, state: 'there' as const }
      : cell,
  );
  return { photos: placed, cells, unplaced: board.unplaced, ratingDates, plots, placesPerPlot };
}

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
  readonly state = new ObservableValue<TrialPhotosState>(EMPTY);
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
      this.state.set(EMPTY);
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
