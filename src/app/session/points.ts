import type { MeasureSettings } from '../../core/cover/measurePhoto.ts';
import { type MeasuredArea, measuredArea } from '../../core/geometry/measuredArea.ts';
import { frameProblem, type PlotFrame, wholePhoto } from '../../core/geometry/plotFrame.ts';
import { isDoubted } from '../../core/mask/reviewOrder.ts';
import { type CountedPhoto, observersOf, splitByRule } from '../../core/point-grid/countedPhoto.ts';
import type { PointCall } from '../../core/point-grid/pointCall.ts';
import { pointPlaces } from '../../core/point-grid/pointPlaces.ts';
import { type PointSet, placePoints, replacePoints } from '../../core/point-grid/pointSet.ts';
import { drawReferencePhotos, type TreatmentReferencePhotos } from '../../core/point-grid/referencePhotos.ts';
import { DEFAULT_CLASSES } from '../../core/trial/defaultClasses.ts';
import { groupBy } from '../../core/trial/groupBy.ts';
import { plotKey } from '../../core/trial/plot.ts';
import { repeatableRandom, seedFor, shuffled } from '../../core/trial/repeatableRandom.ts';
import type { GapRule } from '../../core/trial/trial.ts';
import type { PhotoForPoints } from '../../storage/pointStore.ts';
import type {
  FieldCountRecord,
  ObserverTestRecord,
  PointSetRecord,
} from '../../storage/records/pointRecords.ts';
import { doubtsOf } from './doubtsOf.ts';
import { maskAtPoints, sharesOf } from './maskAtPoints.ts';
import { ObservableValue } from './observable.ts';
import { PointCalling } from './pointCalling.ts';
import { adjustedFigures, figuresByPoints } from './points/countFigures.ts';
import { dateFigures } from './points/dateFigures.ts';
import { frameSpreadOf } from './points/frameSpread.ts';
import type {
  CountDraft,
  DateFigures,
  DrawnDate,
  FrameSpread,
  PointsState,
  RatingDate,
} from './points/pointsState.ts';
import type { PhotoSummary } from './session.ts';
import type { OpenPart, PartContext } from './sessionPart.ts';

export type { FieldCountRecord, ObserverTestRecord } from '../../storage/records/pointRecords.ts';

const EVERY_PIXEL: GapRule = { kind: 'every-pixel' };
const NO_TREATMENT = '';

/** The part that counts at points. */
export const openPoints = (): OpenPart<Points> => async (context) => {
  const points = new Points(context);
  await points.load();
  return points;
};

/** Counts at points: planning, calling, and what follows from the calls. */
export class Points {
  readonly state: ObservableValue<PointsState>;
  readonly #context: PartContext;
  readonly #stops: (() => void)[] = [];
  /** What does not change with a call, by point set. */
  readonly #known = new Map<string, Known>();
  #reading: Promise<void> | null = null;
  #readAgain = false;
  /** While somebody calls, reading everything after each call would take the time that the next point needs. */
  #held = false;

  constructor(context: PartContext) {
    this.#context = context;
    this.state = new ObservableValue<PointsState>({
      plans: [],
      sets: [],
      calls: [],
      fieldCounts: [],
      tests: [],
      trialId: null,
      classes: DEFAULT_CLASSES,
      gapRule: EVERY_PIXEL,
      treatments: new Map(),
      declared: null,
    });
  }

  async load(): Promise<void> {
    const { store, openTrial, fail } = this.#context;
    const session = await openTrial();
    const follow = () => {
      this.state.set({ ...this.state.get(), ...ofTrial(session.trial.get()) });
      void this.#readDeclared().catch(fail);
    };
    follow();
    this.#stops.push(
      session.trial.subscribe(follow),
      store.observeTrials(() => void this.#readDeclared().catch(fail)),
      store.observePoints(() => {
        if (!this.#held) void this.#read().catch(fail);
      }),
    );
    await this.#read();
  }

  stop(): void {
    for (const stop of this.#stops) stop();
  }

  /** Called again while reading, it reads once more. */
  #read(): Promise<void> {
    if (this.#reading) {
      this.#readAgain = true;
      return this.#reading;
    }
    this.#reading = (async () => {
      do {
        this.#readAgain = false;
        const stored = await this.#context.store.points.load();
        this.state.set({ ...this.state.get(), ...stored });
      } while (this.#readAgain);
    })().finally(() => {
      this.#reading = null;
    });
    return this.#reading;
  }

  async #readDeclared(): Promise<void> {
    const { trialId } = this.state.get();
    const newest =
      trialId === null ? undefined : (await this.#context.store.declarations.all(trialId)).at(-1);
    const method = newest?.declaration.method;
    const declared = newest
      ? { method: typeof method === 'string' ? method : null, by: newest.by, at: newest.at }
      : null;
    if (JSON.stringify(declared) !== JSON.stringify(this.state.get().declared)) {
      this.state.set({ ...this.state.get(), declared });
    }
  }

  get classIds(): readonly string[] {
    return this.state.get().classes.map(({ id }) => id);
  }

  #summary(photoId: string): PhotoSummary | undefined {
    return this.#context.photos.get().find(({ id }) => id === photoId);
  }

  treatmentOf(plot: string | null): string | null {
    return plot === null ? null : (this.state.get().treatments.get(plotKey(plot)) ?? null);
  }

  /** What a plan would draw; nothing is stored. */
  async preview(draft: CountDraft): Promise<readonly DrawnDate[]> {
    const dates: DrawnDate[] = [];
    for (const ratingDate of draft.ratingDates) dates.push((await this.#draw(draft, ratingDate)).date);
    return dates;
  }

  /** Draws photos and points and keeps them, one plan a rating date. */
  async plan(draft: CountDraft, by: string | null): Promise<readonly DrawnDate[]> {
    const { store, parts, settle } = this.#context;
    const { trialId } = this.state.get();
    const dates: DrawnDate[] = [];
    for (const ratingDate of draft.ratingDates) {
      const { date, facts } = await this.#draw(draft, ratingDate);
      const sets: Omit<PointSetRecord, 'planId' | 'createdAt' | 'by'>[] = [];
      let unplaced = 0;
      for (const photoId of date.drawn.flatMap(({ photos }) => photos)) {
        const set = this.#place(photoId, draft, facts.get(photoId)!.settings);
        if (set) sets.push({ id: parts.newId(), photoId, set });
        else unplaced += 1;
      }
      const sum = (of: (drawn: TreatmentReferencePhotos) => number) =>
        date.drawn.reduce((total, drawn) => total + of(drawn), 0);
      const plan = {
        id: parts.newId(),
        trialId,
        ratingDate,
        design: draft.design,
        seed: draft.seed,
        photosPerTreatment: draft.photosPerTreatment,
        drawnFrom: sum(({ drawnFrom }) => drawnFrom),
        leftOut: {
          withStrokes: sum(({ withStrokes }) => withStrokes),
          inReviewQueue: sum(({ inReviewQueue }) => inReviewQueue),
        },
        createdAt: parts.now().toISOString(),
        by,
      };
      settle(await store.points.addPlan(plan, sets));
      dates.push({ ...date, unplaced });
    }
    await this.#read();
    return dates;
  }

  async #draw({ photosPerTreatment, seed }: CountDraft, ratingDate: RatingDate) {
    const { sets, treatments } = this.state.get();
    const withPoints = new Set(sets.map(({ photoId }) => photoId));
    const ofDate = this.#context.photos.get().filter((photo) => photo.ratingDate === ratingDate);
    const free = ofDate.filter(({ id }) => !withPoints.has(id));
    const facts = await this.#context.store.points.photos(free.map(({ id }) => id));
    const ready = free.flatMap((photo) => {
      const treatment = treatments.size === 0 ? NO_TREATMENT : this.treatmentOf(photo.plot);
      const known = facts.get(photo.id);
      if (!known || treatment === null || photo.widthPx === null || photo.figure === null) return [];
      return [{ photo, treatment, known }];
    });
    const drawn =
      photosPerTreatment === null
        ? [...groupBy(ready, ({ treatment }) => treatment)].map(([treatment, own]) => ({
            treatment,
            photos: own.map(({ photo }) => photo.id),
            drawnFrom: own.length,
            withStrokes: 0,
            inReviewQueue: 0,
          }))
        : drawReferencePhotos(
            ready.map(({ photo, treatment, known }) => ({
              photo: photo.id,
              treatment,
              isInReviewQueue: known.isReviewed || isDoubted(doubtsOf(photo)),
              hasStrokes: known.hasStrokes,
            })),
            photosPerTreatment,
            seedFor(seed, ratingDate ?? ''),
          );
    const date: DrawnDate = {
      ratingDate,
      drawn: [...drawn].sort((a, b) => a.treatment.localeCompare(b.treatment, 'en', { numeric: true })),
      already: ofDate.length - free.length,
      unready: free.length - ready.length,
      unplaced: 0,
    };
    return { date, facts };
  }

  #place(photoId: string, { design, seed }: CountDraft, settings: MeasureSettings): PointSet | null {
    const photo = this.#summary(photoId);
    const area = photo && areaOf(photo, settings);
    if (!area) return null;
    const own = seedFor(seed, 'points', photo.name, photo.ratingDate ?? '');
    const placing = placePoints(design, frameOf(photo, settings), area, own);
    return placing.ok && placing.set.points.length > 0 ? placing.set : null;
  }

  /** Null where no plot was counted in two frames. Treatments need not be known for this. */
  async frameSpread(): Promise<FrameSpread | null> {
    const { classes, sets } = this.state.get();
    const ids = new Set(sets.map(({ photoId }) => photoId));
    const dates = new Set(
      this.#context.photos.get().flatMap(({ id, ratingDate }) => (ids.has(id) ? [ratingDate] : [])),
    );
    const counted: CountedPhoto[] = [];
    for (const date of dates) counted.push(...(await this.counted(date)));
    const observer = observersOf(counted)[0];
    return observer === undefined ? null : frameSpreadOf(counted, observer, classes);
  }

  /** Takes a plan back as long as nobody has called a point of it. */
  async removePlan(id: string, by: string | null): Promise<void> {
    const { store, settle } = this.#context;
    settle(await store.points.removePlan(id, by));
    await this.#read();
  }

  /** The photos of a rating date that have points, with all that was said at them. */
  async counted(ratingDate: RatingDate): Promise<readonly CountedPhoto[]> {
    const { sets, calls, gapRule } = this.state.get();
    const wanted = sets.filter(({ photoId }) => this.#summary(photoId)?.ratingDate === ratingDate);
    const facts = await this.#context.store.points.photos(wanted.map(({ photoId }) => photoId));
    const callsBySet = groupBy(calls, ({ pointSetId }) => pointSetId);
    const photos: CountedPhoto[] = [];
    for (const record of wanted) {
      const photo = this.#summary(record.photoId);
      const known = facts.get(record.photoId);
      if (!photo || !known) continue;
      const own: readonly PointCall[] = callsBySet.get(record.id) ?? [];
      const { places, mask } = await this.#knownOf(record, photo, known, own);
      photos.push({
        photoId: photo.id,
        plot: photo.plot,
        ratingDate,
        treatment: this.treatmentOf(photo.plot),
        hasStrokes: known.hasStrokes,
        set: record.set,
        places,
        ...splitByRule(own, gapRule),
        mask,
      });
    }
    return photos;
  }

  async #knownOf(
    record: PointSetRecord,
    photo: PhotoSummary,
    { settings }: PhotoForPoints,
    calls: readonly PointCall[],
  ): Promise<Known> {
    const { classes, gapRule } = this.state.get();
    const key = JSON.stringify([
      settings.frame,
      settings.ignored,
      settings.neutral,
      photo.figure?.id,
      record.set.points.length,
      classes.map(({ id }) => id),
      gapRule,
    ]);
    const before = this.#known.get(record.id);
    if (before?.key === key) return before;
    const area = areaOf(photo, settings);
    const places = area ? pointPlaces(record.set, calls, frameOf(photo, settings).corners, area) : [];
    const { figure } = photo;
    const mask = figure && area ? await this.#context.mask(photo.id) : null;
    const fits = mask && area && mask.widthPx === area.widthPx && mask.heightPx === area.heightPx;
    const known: Known = {
      key: fits || !figure ? key : '',
      places,
      mask: fits && figure ? maskAtPoints(mask, figure, area, places, this.classIds, gapRule) : null,
    };
    this.#known.set(record.id, known);
    return known;
  }

  /** Photos with points of a date in this observer's order, with how many points are left. */
  toCall(
    photos: readonly CountedPhoto[],
    observer: string,
  ): readonly { readonly photo: CountedPhoto; readonly left: number }[] {
    const seed = photos[0]?.set.seed ?? 0;
    const inOrder = [...photos].sort((a, b) => (a.photoId < b.photoId ? -1 : 1));
    return shuffled(inOrder, repeatableRandom(seedFor(seed, 'order of photos', observer))).map((photo) => {
      const called = new Set(
        photo.calls.flatMap((call) => (call.observer === observer ? [call.pointId] : [])),
      );
      const left = photo.places.filter(({ id, isOutside }) => !isOutside && !called.has(id)).length;
      return { photo, left };
    });
  }

  /** The photo file; null where the browser has lost it. */
  bytes(photoId: string): Promise<ArrayBuffer | null> {
    return this.#context.store.photos.bytes(photoId);
  }

  /** Lets the state rest while points are called, or brings it up to date again. */
  async hold(held: boolean): Promise<void> {
    this.#held = held;
    if (!held) await this.#read();
  }

  /** Starts a sitting at one photo, or takes it up where it was left. */
  call(photo: CountedPhoto, observer: string): PointCalling {
    const { sets, gapRule } = this.state.get();
    const record = sets.find((one) => isSetOf(one, photo));
    if (!record) throw new TypeError('this photo has no points to call');
    const { store, parts, settle } = this.#context;
    const { places, calls } = photo;
    return new PointCalling(
      { observer, gapRule, places, calls, seed: record.set.seed },
      {
        now: parts.now,
        write: async (call) => {
          const at: [number, number] = [call.at[0], call.at[1]];
          const written = await store.points.addCall({
            ...call,
            at: at as unknown as PointCall['at'],
            id: parts.newId(),
            pointSetId: record.id,
          });
          settle(written);
          return written.written;
        },
      },
    );
  }

  /** Draws new points for those that lie outside since the frame was moved; the old ones are kept. */
  async replaceOutside(photo: CountedPhoto, by: string | null): Promise<boolean> {
    const { store, settle } = this.#context;
    const record = this.state.get().sets.find((one) => isSetOf(one, photo));
    const summary = this.#summary(photo.photoId);
    const facts = (await store.points.photos([photo.photoId])).get(photo.photoId);
    const area = summary && facts && areaOf(summary, facts.settings);
    if (!record || !area) return false;
    const outside = photo.places.filter(({ isOutside }) => isOutside).map(({ id }) => id);
    const placing = replacePoints(record.set, outside, frameOf(summary, facts.settings), area);
    if (!placing.ok) return false;
    settle(await store.points.replacePoints(record.id, placing.set, by));
    await this.#read();
    return true;
  }

  /** What one observer's points make of the masks of a rating date. Masks of photos without points take part. */
  async figures(ratingDate: RatingDate, observer: string): Promise<DateFigures> {
    const photos = await this.counted(ratingDate);
    const { classIds } = this;
    const measured = this.#context.photos.get().flatMap((photo) => {
      if (photo.ratingDate !== ratingDate || !photo.figure) return [];
      const shares = sharesOf(photo.figure.cover, classIds);
      return shares
        ? [{ photoId: photo.id, treatment: this.treatmentOf(photo.plot), mappedFraction: shares }]
        : [];
    });
    return dateFigures(ratingDate, { photos, measured, observer, classIds });
  }

  /** Keeps the figures of a date by points and adjusted, for a comparison to use. @returns how many of each method */
  async keepFigures(
    ratingDate: RatingDate,
    observer: string,
    by: string,
  ): Promise<{ readonly points: number; readonly adjusted: number }> {
    const { store, settle } = this.#context;
    const { photos, byPhoto } = await this.figures(ratingDate, observer);
    const { classIds } = this;
    const facts = await store.points.photos([
      ...photos.map(({ photoId }) => photoId),
      ...(byPhoto?.photos.map(({ photo }) => photo) ?? []),
    ]);
    const settingsOf = (id: string) => facts.get(id)?.settings ?? null;
    const points = figuresByPoints(photos, observer, classIds, settingsOf);
    const adjusted = adjustedFigures(
      byPhoto?.photos ?? [],
      (id) => this.#summary(id)?.figure ?? null,
      classIds,
      settingsOf,
    );
    settle(await store.points.keepFigures([...points, ...adjusted], by));
    return { points: points.length, adjusted: adjusted.length };
  }

  async addFieldCount(count: Omit<FieldCountRecord, 'id' | 'trialId' | 'enteredAt'>): Promise<void> {
    const { store, parts, settle } = this.#context;
    const { trialId } = this.state.get();
    const enteredAt = parts.now().toISOString();
    settle(await store.points.addFieldCount({ ...count, id: parts.newId(), trialId, enteredAt }));
    await this.#read();
  }

  async removeFieldCount(id: string, by: string | null): Promise<void> {
    const { store, settle } = this.#context;
    settle(await store.points.removeFieldCount(id, by));
    await this.#read();
  }

  async addTest(test: Pick<ObserverTestRecord, 'observer' | 'round' | 'pictures'>): Promise<void> {
    const { store, parts, settle } = this.#context;
    const { trialId } = this.state.get();
    const finishedAt = parts.now().toISOString();
    settle(await store.points.addTest({ ...test, id: parts.newId(), trialId, finishedAt }));
    await this.#read();
  }

  /** A sitting at points of a picture that is no photo of the trial: its calls are not stored one by one. */
  practise(places: CountedPhoto['places'], observer: string, seed: number, gapRule: GapRule): PointCalling {
    return new PointCalling(
      { observer, gapRule, places, calls: [], seed },
      { now: this.#context.parts.now, write: async () => true },
    );
  }
}

/** A photo can have two sets, where counts of two devices came together. */
const isSetOf = ({ photoId, set }: PointSetRecord, photo: CountedPhoto): boolean =>
  photoId === photo.photoId && set.seed === photo.set.seed;

interface Known {
  /** What it follows from; empty where it is to be worked out again. */
  readonly key: string;
  readonly places: CountedPhoto['places'];
  readonly mask: CountedPhoto['mask'];
}

/** Null where the photo's size is not known or its frame cannot be. */
function areaOf(photo: PhotoSummary, { frame, ignored, neutral }: MeasureSettings): MeasuredArea | null {
  const { widthPx, heightPx } = photo;
  if (widthPx === null || heightPx === null) return null;
  if (frame && frameProblem(frame.corners, widthPx, heightPx)) return null;
  return measuredArea(widthPx, heightPx, { frame, ignored, neutral });
}

const frameOf = ({ widthPx, heightPx }: PhotoSummary, { frame }: MeasureSettings): PlotFrame =>
  frame ?? { corners: wholePhoto(widthPx!, heightPx!), sizeMm: null };

function ofTrial(
  trial: ReturnType<Awaited<ReturnType<PartContext['openTrial']>>['trial']['get']>,
): Pick<PointsState, 'trialId' | 'classes' | 'gapRule' | 'treatments'> {
  if (trial.state !== 'open') {
    return { trialId: null, classes: DEFAULT_CLASSES, gapRule: EVERY_PIXEL, treatments: new Map() };
  }
  const { plan } = trial;
  return {
    trialId: trial.id,
    classes: plan.trial.classes,
    gapRule: plan.trial.gapRule,
    treatments: new Map(plan.plots.map(({ plot, treatment }) => [plotKey(plot), String(treatment)])),
  };
}
