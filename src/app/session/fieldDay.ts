import type { PhotoCheck } from '../../core/quality/checkPhoto.ts';
import { fieldText } from '../../core/text/field.ts';
import { lastApplicationText } from '../../core/text/trial.ts';
import { type FieldStop, fieldStops, nextOpenStop } from '../../core/trial/fieldRound.ts';
import type { LastApplication } from '../../core/trial/reEntry.ts';
import { walkingOrder } from '../../core/trial/walkingOrder.ts';
import type { FieldProgress, OpenFieldDay } from '../../storage/fieldStore.ts';
import type { SkippedPlaceRecord } from '../../storage/records/fieldRecords.ts';
import { ObservableValue } from './observable.ts';
import { ratingDatesOf } from './placePhotos.ts';
import { readPhotoFile } from './readPhotoFile.ts';
import type { AddProblem, PhotoSummary } from './session.ts';
import type { OpenPart, PartContext } from './sessionPart.ts';
import type { TrialSession } from './trialSession.ts';
import type { OpenTrial } from './trialState.ts';

/** A stop with what is known of its photos. */
export interface PhotographedStop extends FieldStop {
  /** Null while its photo is looked over, or without one. */
  readonly verdict: PhotoSummary['verdict'];
  /** The plan has a frame, and none was found surely enough to be measured in: sharpness and scale are not judged. */
  readonly unframed: boolean;
  /** Photos that others were taken in the place of, the newest first. */
  readonly replaced: readonly string[];
  /** The newest photo of this place from an earlier date; null where there is none. */
  readonly before: { readonly photo: string; readonly ratingDate: string } | null;
}

export interface FieldDayState {
  /** Null where there is no trial that can be read. */
  readonly trial: OpenTrial | null;
  /** Days of its ratings, in order. */
  readonly ratingDates: readonly string[];
  /** In walking order; empty where the date is none of the trial's. */
  readonly stops: readonly PhotographedStop[];
  readonly placesPerPlot: number;
  /** Index of the stop the person stands at. */
  readonly at: number;
  /** Null where the day was not begun on this device. */
  readonly progress: FieldProgress | null;
  /** A photo that the camera was opened for before this page was, and that never came. */
  readonly missed: { readonly plot: string; readonly place: number } | null;
  /** Of the photo of this stop; null while it is looked over, or without one. */
  readonly check: PhotoCheck | null;
  /** A photo is being stored. */
  readonly storing: boolean;
  /** Days begun on this device, the newest first. */
  readonly begun: readonly OpenFieldDay[];
}

export type TakenPhoto =
  | { readonly state: 'added'; readonly photoId: string }
  | {
      readonly state: 'same-photo';
      readonly name: string;
      readonly plot: string | null;
      readonly ratingDate: string | null;
    }
  | { readonly state: 'refused'; readonly name: string; readonly problem: AddProblem };

const NOTHING: FieldDayState = {
  trial: null,
  ratingDates: [],
  stops: [],
  placesPerPlot: 1,
  at: 0,
  progress: null,
  missed: null,
  check: null,
  storing: false,
  begun: [],
};

/** @param ratingDate '' before one is chosen */
export const openFieldDay =
  (ratingDate: string): OpenPart<FieldDay> =>
  async (context) => {
    const day = new FieldDay(context, await context.openTrial(), ratingDate);
    await day.start();
    return day;
  };

/** One rating date in the field: the stops, where the person stands, and the photo that is awaited, all durable. */
export class FieldDay {
  readonly state = new ObservableValue<FieldDayState>(NOTHING);
  readonly ratingDate: string;
  readonly #context: PartContext;
  readonly #trialSession: TrialSession;
  readonly #stops: (() => void)[] = [];
  #skipped: readonly SkippedPlaceRecord[] = [];
  #checkOf: string | null = null;
  #askedToPersist = false;
  #stopped = false;

  constructor(context: PartContext, trialSession: TrialSession, ratingDate: string) {
    this.#context = context;
    this.#trialSession = trialSession;
    this.ratingDate = ratingDate;
  }

  async start(): Promise<void> {
    const { photos, store } = this.#context;
    const trial = this.#trial();
    if (trial) {
      this.#skipped = await store.field.skipped(trial.id);
      const progress = await store.field.progress(trial.id, this.ratingDate);
      const begun = await store.field.days(trial.id);
      this.#set({ progress, begun, missed: progress?.awaited ?? null });
    }
    this.#update();
    const { stops, progress } = this.state.get();
    const here = stops.findIndex(
      ({ plot, place }) => plot.plot === progress?.plot && place === progress.place,
    );
    this.#set({ at: here >= 0 ? here : (nextOpenStop(stops, -1) ?? 0) });
    this.#update();
    const onTrial = () => void this.#readSkipped().catch(this.#context.fail);
    this.#stops.push(photos.subscribe(this.#update), this.#trialSession.trial.subscribe(onTrial));
  }

  /** Goes to a stop; the store knows before the answer is given. */
  async goTo(at: number): Promise<void> {
    const { trial, stops } = this.state.get();
    const stop = stops[at];
    if (!trial || !stop) return;
    this.#set({ at, check: null });
    this.#checkOf = null;
    this.#update();
    const spot = { plot: stop.plot.plot, place: stop.place, ratingDate: this.ratingDate };
    this.#keep(await this.#context.store.field.goTo(trial.id, spot));
  }

  /** To be awaited before the camera is opened: a page that is ended meanwhile comes back to this stop. */
  async awaitPhoto(): Promise<void> {
    const { stops, at } = this.state.get();
    const stop = stops[at];
    if (stop) await this.#await({ plot: stop.plot.plot, place: stop.place });
  }

  /** The camera was closed without a photo, or the person has seen that none came. */
  forgetAwaited(): Promise<void> {
    return this.#await(null);
  }

  async #await(spot: { readonly plot: string; readonly place: number } | null): Promise<void> {
    const { trial } = this.state.get();
    if (!trial) return;
    const written = await this.#context.store.field.awaitPhoto(trial.id, this.ratingDate, spot);
    this.#set({ missed: null });
    this.#keep(written);
  }

  /**
   * Takes the photo of this stop in. One that was here before is kept, marked as replaced.
   *
   * @param by who takes it, as typed
   */
  async take(file: File, by: string | null): Promise<TakenPhoto> {
    const { trial, stops, at, placesPerPlot } = this.state.get();
    const stop = stops[at];
    if (!trial || !stop) throw new Error('a photo came without a stop to belong to');
    this.#set({ storing: true });
    try {
      const read = await readPhotoFile(file);
      if (!read.ok) return { state: 'refused', name: file.name, problem: read.problem };
      const spot = {
        plot: stop.plot.plot,
        place: placesPerPlot === 1 ? null : stop.place,
        ratingDate: this.ratingDate,
      };
      const signed = { by, reason: fieldText.replacedReason };
      const { store, settle, goOn } = this.#context;
      const written = await store.field.take(trial.id, spot, read.photo, signed);
      settle(written);
      if (!written.written) {
        const problem: AddProblem =
          written.problem.code === 'quota-exceeded'
            ? { code: 'storage-full' }
            : {
                code: 'storage-failed',
                detail:
                  written.problem.code === 'write-failed' ? written.problem.detail : written.problem.code,
              };
        return { state: 'refused', name: file.name, problem };
      }
      if (written.value.state === 'same-photo') return written.value;
      goOn();
      void this.#askToPersist();
      this.#set({ missed: null, progress: await store.field.progress(trial.id, this.ratingDate) });
      return { state: 'added', photoId: written.value.photoId };
    } finally {
      this.#set({ storing: false });
    }
  }

  /** Puts the photo that was replaced last back in its place. */
  async restoreEarlier(by: string | null): Promise<void> {
    const { stops, at } = this.state.get();
    const earlier = stops[at]?.replaced[0];
    if (!earlier) return;
    const signed = { by, reason: fieldText.earlierReason };
    this.#context.settle(await this.#context.store.field.restoreEarlier(earlier, signed));
  }

  /** Leaves this stop out. */
  async skip(reason: string, by: string | null): Promise<void> {
    const { trial, stops, at } = this.state.get();
    const stop = stops[at];
    if (!trial || !stop) return;
    const { ratingDate } = this;
    const skipped = { trialId: trial.id, ratingDate, plot: stop.plot.plot, place: stop.place, reason, by };
    this.#context.settle(await this.#context.store.field.skip(skipped));
    await this.#readSkipped();
  }

  /** Keeps that a person goes on to the plots although a re-entry time has not passed or is not known. */
  async acknowledge(last: LastApplication, by: string): Promise<void> {
    const { trial } = this.state.get();
    if (!trial) return;
    const signed = { words: lastApplicationText(last), by };
    const { field } = this.#context.store;
    this.#keep(await field.acknowledge(trial.id, this.ratingDate, last.application, signed));
  }

  stop(): void {
    this.#stopped = true;
    for (const stop of this.#stops) stop();
  }

  #trial(): OpenTrial | null {
    const trial = this.#trialSession.trial.get();
    return trial.state === 'open' ? trial : null;
  }

  async #readSkipped(): Promise<void> {
    const trial = this.#trial();
    if (trial) this.#skipped = await this.#context.store.field.skipped(trial.id);
    this.#update();
  }

  readonly #update = (): void => {
    if (this.#stopped) return;
    const trial = this.#trial();
    if (!trial) {
      this.#set({ trial: null, stops: [] });
      return;
    }
    const { plan, photoRules } = trial;
    const ratingDates = ratingDatesOf(plan);
    const placesPerPlot = plan.framePlan?.placesPerPlot ?? 1;
    const photos = this.#context.photos.get();
    const stops = ratingDates.includes(this.ratingDate)
      ? fieldStops(
          walkingOrder(plan.plots, photoRules.walk),
          placesPerPlot,
          this.ratingDate,
          photos,
          this.#skipped.filter(({ ratingDate }) => ratingDate === this.ratingDate),
        )
      : [];
    const known = knownOf(photos, this.ratingDate, plan.framePlan !== null);
    const shown = stops.map((stop): PhotographedStop => ({ ...stop, ...known(stop) }));
    // a plan that is changed meanwhile must not move the person to another plot
    const before = this.state.get();
    const here = before.stops[before.at];
    const same = (stop: PhotographedStop) => stop.plot.plot === here?.plot.plot && stop.place === here.place;
    const at = Math.max(0, here ? shown.findIndex(same) : before.at);
    this.#set({ trial, ratingDates, placesPerPlot, stops: shown, at });
    void this.#readCheck().catch(this.#context.fail);
  };

  async #readCheck(): Promise<void> {
    const { stops, at } = this.state.get();
    const stop = stops[at];
    const of = stop?.photo && stop.verdict ? `${stop.photo} ${stop.verdict}` : null;
    if (of === this.#checkOf) return;
    this.#checkOf = of;
    const check = of && stop ? await this.#context.store.checks.of(stop.photo!) : null;
    if (this.#checkOf === of) this.#set({ check });
  }

  async #askToPersist(): Promise<void> {
    const { storageManager } = this.#context.parts;
    if (this.#askedToPersist || !storageManager || (await storageManager.persisted())) return;
    this.#askedToPersist = true;
    await storageManager.persist();
  }

  #keep(
    written: Parameters<PartContext['settle']>[0] &
      Awaited<ReturnType<PartContext['store']['field']['goTo']>>,
  ) {
    this.#context.settle(written);
    if (written.written) this.#set({ progress: written.value });
  }

  #set(change: Partial<FieldDayState>): void {
    this.state.set({ ...this.state.get(), ...change });
  }
}

/** What the photos say of stops, each photo looked at once. */
function knownOf(photos: readonly PhotoSummary[], ratingDate: string, hasFrame: boolean) {
  const key = (plot: string, place: number | null) => `${plot} ${place ?? 1}`;
  const byId = new Map<string, PhotoSummary>();
  const replaced = new Map<string, string[]>();
  const before = new Map<string, { photo: string; ratingDate: string }>();
  for (const photo of photos) {
    byId.set(photo.id, photo);
    if (photo.replaced?.ratingDate === ratingDate) {
      const at = key(photo.replaced.plot, photo.replaced.place);
      replaced.set(at, [photo.id, ...(replaced.get(at) ?? [])]);
    }
    const { plot, place, ratingDate: date } = photo;
    if (plot === null || date === null || date >= ratingDate) continue;
    const earlier = before.get(key(plot, place));
    if (!earlier || earlier.ratingDate <= date)
      before.set(key(plot, place), { photo: photo.id, ratingDate: date });
  }
  return ({ plot, place, photo }: FieldStop) => ({
    verdict: byId.get(photo ?? '')?.verdict ?? null,
    unframed: hasFrame && isUnframed(byId.get(photo ?? '')),
    replaced: replaced.get(key(plot.plot, place)) ?? [],
    before: before.get(key(plot.plot, place)) ?? null,
  });
}

const isUnframed = (photo: PhotoSummary | undefined): boolean =>
  photo !== undefined && photo.verdict !== null && photo.frame === null && photo.frameBy === null;

/** How many of the stops have their photo. */
export const photographed = (stops: readonly FieldStop[]): number =>
  stops.filter(({ photo }) => photo !== null).length;
