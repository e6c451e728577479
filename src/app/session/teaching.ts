import type { HeldBackAgreement } from '../../core/classifier/heldBackAgreement.ts';
import type { PhotoLook } from '../../core/classifier/photoLook.ts';
import type { StrokeProblem } from '../../core/classifier/trainingSamples.ts';
import type { NamedModel } from '../../core/cover/measurePhoto.ts';
import type { AppliedLesson, Lesson } from '../../core/cover/teachingDesk.ts';
import type { PhotoPoint } from '../../core/geometry/points.ts';
import type { ProjectStore } from '../../storage/projectStore.ts';
import type { StrokeRecord } from '../../storage/records/correctionRecords.ts';
import type { Written } from '../../storage/storageProblem.ts';
import type { TeachWorker } from '../measuring/teachWorker.ts';
import { type Observable, ObservableValue } from './observable.ts';
import type { PhotoSummary } from './session.ts';
import type { OpenPart } from './sessionPart.ts';

export interface TeachingParts {
  readonly store: ProjectStore;
  readonly photos: Observable<readonly PhotoSummary[]>;
  readonly startWorker: () => TeachWorker;
  readonly now: () => Date;
  readonly newId: () => string;
  /** Says what became of a write. */
  readonly settle: (written: Written<unknown>) => void;
  /** Photos were put into the queue. */
  readonly onQueued: () => void;
}

/** A stroke as it was painted. */
export interface PaintedStroke {
  readonly classId: string;
  readonly radiusPx: number;
  readonly points: readonly PhotoPoint[];
}

export interface TeachingState {
  /** The photo painted on; null before one is opened. */
  readonly photoId: string | null;
  /** Whether the open photo and all painted ones have been read: before that nothing is taught. */
  readonly ready: boolean;
  /** By photo, of all photos; empty lists left out. */
  readonly strokes: ReadonlyMap<string, readonly StrokeRecord[]>;
  /** Other rating dates whose strokes teach too. */
  readonly takenOver: readonly string[];
  /** Null until something was painted. */
  readonly lesson: Lesson | null;
  /** On strokes that were held back, of the last whole answer; null where too few were painted. */
  readonly agreement: HeldBackAgreement | null;
  /** What of the open photo's strokes cannot be used. */
  readonly problems: readonly StrokeProblem[];
  /** The lesson on the open photo; of strokes painted before while `behind`. */
  readonly applied: AppliedLesson | null;
  /** Whether `applied` is drawn in full and not as a preview. */
  readonly whole: boolean;
  /** Whether strokes have changed since. */
  readonly behind: boolean;
  /** The id of what is taught now; null while it changes. */
  readonly modelId: string | null;
  /** The lesson on the date's photos, as far as it got; a photo that cannot be read is null. */
  readonly strip: ReadonlyMap<string, AppliedLesson | null>;
  /** Of the date's photos as far as they were read: what they look like as a whole. */
  readonly looks: ReadonlyMap<string, PhotoLook>;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  /** Why teaching stopped. */
  readonly trouble: string | null;
}

/** What one gesture took away and put there. */
interface Gesture {
  readonly removed: readonly StrokeRecord[];
  readonly added: readonly StrokeRecord[];
}

interface History {
  readonly past: Gesture[];
  readonly future: Gesture[];
}

/** The part that teaches the model of a rating date. */
export const openTeaching =
  (ratingDate: string | null): OpenPart<Teaching> =>
  async ({ store, photos, parts, settle, goOn }) => {
    const { now, newId, startTeachWorker: startWorker } = parts;
    const teaching = new Teaching(ratingDate, {
      store,
      photos,
      startWorker,
      now,
      newId,
      settle,
      onQueued: goOn,
    });
    await teaching.load();
    return teaching;
  };

/**
 * Teaching the model of one rating date by strokes.
 *
 * What a person does goes to the store at once, one transaction a gesture. What follows from it is worked out in two
 * lanes: in front the photo painted on, behind it the date's other photos, which wait whenever something is to be done
 * in front. Only whole answers are shown.
 */
export class Teaching {
  readonly state = new ObservableValue<TeachingState>({
    photoId: null,
    ready: false,
    strokes: new Map(),
    takenOver: [],
    lesson: null,
    agreement: null,
    problems: [],
    applied: null,
    whole: false,
    behind: false,
    modelId: null,
    strip: new Map(),
    looks: new Map(),
    canUndo: false,
    canRedo: false,
    trouble: null,
  });
  readonly ratingDate: string | null;
  readonly #parts: TeachingParts;
  readonly #worker: TeachWorker;
  /** Photos on the worker's desk: with which strokes, or null where a photo cannot be read. */
  readonly #onDesk = new Map<string, string | null>();
  /** The photo whose planes the worker holds in full. */
  #openOnDesk: string | null = null;
  readonly #histories = new Map<string, History>();
  /** Photos whose tile shows the present lesson. */
  readonly #upToDate = new Set<string>();
  /** Counts what changes the lesson, so that an answer to an earlier state is known to be late. */
  #revision = 0;
  #loaded = false;
  #frontRuns = false;
  #backRuns = false;
  #stopped = false;

  constructor(ratingDate: string | null, parts: TeachingParts) {
    this.ratingDate = ratingDate;
    this.#parts = parts;
    this.#worker = parts.startWorker();
    this.#worker.onDeath((detail) => this.#fail(detail));
  }

  /** Reads what was painted before. */
  async load(): Promise<void> {
    const { store, photos } = this.#parts;
    const all = await store.teaching.strokes(photos.get().map(({ id }) => id));
    const takenOver = (await store.settings.get('strokes-taken-over'))?.[this.ratingDate ?? ''] ?? [];
    this.#loaded = true;
    this.#set({ strokes: new Map([...all].filter(([, own]) => own.length > 0)), takenOver, behind: true });
    void this.#runFront();
  }

  /** Photos of the rating date. */
  get photos(): readonly PhotoSummary[] {
    return this.#parts.photos.get().filter(({ ratingDate }) => ratingDate === this.ratingDate);
  }

  open(photoId: string): void {
    if (photoId === this.state.get().photoId) return;
    this.#set({ photoId, problems: [], applied: null, whole: false, behind: true });
    void this.#runFront();
  }

  /** @returns when it is stored */
  paint(stroke: PaintedStroke): Promise<void> {
    const { now, newId } = this.#parts;
    const photoId = this.#openId();
    const added: StrokeRecord = {
      ...stroke,
      points: [...stroke.points],
      id: newId(),
      photoId,
      by: null,
      at: now().toISOString(),
    };
    return this.#gesture({ removed: [], added: [added] });
  }

  erase(strokes: readonly StrokeRecord[]): Promise<void> {
    return strokes.length > 0 ? this.#gesture({ removed: strokes, added: [] }) : Promise.resolve();
  }

  async undo(): Promise<void> {
    const { past, future } = this.#history();
    const last = past.pop();
    if (!last) return;
    future.push(last);
    await this.#change({ removed: last.added, added: last.removed });
  }

  async redo(): Promise<void> {
    const { past, future } = this.#history();
    const next = future.pop();
    if (!next) return;
    past.push(next);
    await this.#change(next);
  }

  /** Has the strokes of other rating dates teach as well; they stay where they were painted. */
  async takeOver(dates: readonly string[]): Promise<void> {
    const { store, settle } = this.#parts;
    this.#set({ takenOver: dates, behind: true });
    const before = (await store.settings.get('strokes-taken-over')) ?? {};
    settle(await store.settings.set('strokes-taken-over', { ...before, [this.ratingDate ?? '']: dates }));
    void this.#runFront();
  }

  /** Keeps what is taught now and measures the date's photos with it. @returns how many, or null where nothing is taught */
  async measureAll(): Promise<number | null> {
    const taught: NamedModel | null = await this.#worker.model();
    if (!taught || this.state.get().behind) return null;
    const { store, settle, onQueued } = this.#parts;
    const photoIds = this.photos.map(({ id }) => id);
    const { ratingDate } = this;
    const { agreement } = this.state.get();
    const written = await store.teaching.adoptModel({
      taught,
      agreement,
      ratingDate,
      trialId: null,
      photoIds,
    });
    settle(written);
    if (!written.written) return null;
    onQueued();
    return photoIds.length;
  }

  /** Has the date's photos measured by the start model again. */
  async adoptStartModel(): Promise<void> {
    const { store, settle, onQueued } = this.#parts;
    settle(await store.teaching.adoptStartModel(this.photos.map(({ id }) => id)));
    onQueued();
  }

  stop(): void {
    this.#stopped = true;
    this.#worker.terminate();
  }

  #gesture(gesture: Gesture): Promise<void> {
    const { past, future } = this.#history();
    past.push(gesture);
    future.length = 0;
    return this.#change(gesture);
  }

  /** The screen follows at once, the store as soon as it can; the worker as soon as it is free. */
  async #change({ removed, added }: Gesture): Promise<void> {
    const photoId = this.#openId();
    const gone = new Set(removed.map(({ id }) => id));
    const before = this.state.get().strokes;
    const own = [...(before.get(photoId) ?? []).filter(({ id }) => !gone.has(id)), ...added].sort((a, b) =>
      a.at < b.at ? -1 : Number(a.at > b.at),
    );
    const strokes = new Map(before);
    if (own.length > 0) strokes.set(photoId, own);
    else strokes.delete(photoId);
    this.#set({ strokes, behind: true });
    void this.#runFront();
    const { store, settle } = this.#parts;
    settle(await store.teaching.replaceStrokes(removed, added));
  }

  #openId(): string {
    const { photoId } = this.state.get();
    if (photoId === null) throw new TypeError('no photo is open to paint on');
    return photoId;
  }

  #history(): History {
    const photoId = this.state.get().photoId ?? '';
    const known = this.#histories.get(photoId) ?? { past: [], future: [] };
    this.#histories.set(photoId, known);
    return known;
  }

  #set(change: Partial<TeachingState>): void {
    if (change.behind === true) this.#revision += 1;
    const next = { ...this.state.get(), ...change };
    const { past, future } = this.#histories.get(next.photoId ?? '') ?? { past: [], future: [] };
    this.state.set({ ...next, canUndo: past.length > 0, canRedo: future.length > 0 });
  }

  #fail(detail: string): void {
    if (this.#stopped) return;
    this.#stopped = true;
    this.#worker.terminate();
    this.#set({ trouble: detail, applied: null, strip: new Map(), modelId: null });
  }

  async #runFront(): Promise<void> {
    if (this.#frontRuns || !this.#loaded) return;
    this.#frontRuns = true;
    try {
      for (let step = this.#frontStep(); step && !this.#stopped; step = this.#frontStep()) await step();
    } catch (error) {
      this.#fail((error as Error).message);
    } finally {
      this.#frontRuns = false;
    }
    void this.#runBack();
  }

  /** What is to be done next for the photo on screen; null where all is done. */
  #frontStep(): (() => Promise<void>) | null {
    const { photoId, behind, applied, whole } = this.state.get();
    if (photoId === null) return null;
    if (this.#openOnDesk !== photoId && this.#onDesk.get(photoId) !== null) {
      return () => this.#read(photoId, true);
    }
    const unread = this.#teachingIds().find(
      (id) =>
        id !== photoId && this.#onDesk.get(id) !== null && this.#onDesk.get(id) !== this.#strokesKey(id),
    );
    if (unread !== undefined) return () => this.#read(unread, false);
    if (behind) return () => this.#teach(photoId);
    if (applied && !whole) return () => this.#finish(photoId);
    return null;
  }

  /** Photos whose strokes teach this date, in their order. */
  #teachingIds(): string[] {
    const { strokes, takenOver } = this.state.get();
    return this.#parts.photos
      .get()
      .filter(
        ({ id, ratingDate }) =>
          strokes.has(id) &&
          (ratingDate === this.ratingDate || (ratingDate !== null && takenOver.includes(ratingDate))),
      )
      .map(({ id }) => id);
  }

  /** The classes of the trial, as the photo painted on has them. */
  #classIds(photoId: string): readonly string[] {
    const photo = this.#parts.photos.get().find(({ id }) => id === photoId);
    return photo?.classes.map(({ id }) => id) ?? [];
  }

  #strokesKey(photoId: string): string {
    return (this.state.get().strokes.get(photoId) ?? []).map(({ id }) => id).join();
  }

  async #read(photoId: string, isOpen: boolean): Promise<void> {
    const { store } = this.#parts;
    const key = this.#strokesKey(photoId);
    const strokes = this.state.get().strokes.get(photoId) ?? [];
    const [bytes, found] = await Promise.all([store.photos.bytes(photoId), store.teaching.photo(photoId)]);
    if (!bytes || !found) {
      this.#cannotRead(photoId);
      return;
    }
    const { photoSha256, settings } = found;
    const outcome = await this.#worker.read({ photoId, photoSha256, bytes, settings, strokes, isOpen });
    if (!outcome.ok) {
      this.#cannotRead(photoId);
      return;
    }
    this.#onDesk.set(photoId, key);
    if (isOpen) this.#openOnDesk = photoId;
    this.#set({ looks: new Map(this.state.get().looks).set(photoId, outcome.look) });
  }

  #cannotRead(photoId: string): void {
    this.#onDesk.set(photoId, null);
    this.#set({ strip: new Map(this.state.get().strip).set(photoId, null) });
  }

  async #teach(photoId: string): Promise<void> {
    const revision = this.#revision;
    const own = this.state.get().strokes.get(photoId) ?? [];
    const key = this.#strokesKey(photoId);
    const photoIds = this.#teachingIds();
    const { lesson, problems, preview } = await this.#worker.teach({
      photoId,
      strokes: own,
      photoIds,
      classIds: this.#classIds(photoId),
    });
    this.#onDesk.set(photoId, this.#onDesk.get(photoId) === null ? null : key);
    const now = this.state.get();
    // painted on meanwhile, or another photo was opened: that comes next, and this answer is late
    this.#upToDate.clear();
    if (now.photoId !== photoId) return;
    if (revision === this.#revision) this.#set({ behind: false });
    this.#set({
      lesson,
      problems,
      applied: preview,
      whole: false,
      ready: true,
      modelId: null,
      ...(lesson.ok ? {} : { strip: new Map() }),
    });
  }

  async #finish(photoId: string): Promise<void> {
    const revision = this.#revision;
    const applied = await this.#worker.apply(photoId, 'whole');
    const taught = await this.#worker.model();
    const agreement = await this.#worker.agreement();
    if (revision !== this.#revision) return;
    this.#set({
      applied: applied ?? this.state.get().applied,
      whole: true,
      agreement,
      modelId: taught?.id ?? null,
    });
  }

  async #runBack(): Promise<void> {
    if (this.#backRuns) return;
    this.#backRuns = true;
    try {
      for (let step = this.#backStep(); step; step = this.#backStep()) await step();
    } catch (error) {
      this.#fail((error as Error).message);
    } finally {
      this.#backRuns = false;
    }
  }

  #backStep(): (() => Promise<void>) | null {
    const { photoId, behind, lesson } = this.state.get();
    if (this.#stopped || this.#frontRuns || photoId === null || behind || !lesson) return null;
    const ids = this.photos.map(({ id }) => id).filter((id) => this.#onDesk.get(id) !== null);
    const stale = lesson.ok ? ids.find((id) => this.#onDesk.has(id) && !this.#upToDate.has(id)) : undefined;
    if (stale !== undefined) return () => this.#follow(stale);
    // before anything is painted as well: then it is known where to begin
    const unread = ids.find((id) => !this.#onDesk.has(id));
    return unread === undefined ? null : () => this.#read(unread, false);
  }

  async #follow(photoId: string): Promise<void> {
    const revision = this.#revision;
    const applied = await this.#worker.apply(photoId, 'small');
    if (this.#revision !== revision) return; // of strokes before: it will be asked for again
    this.#upToDate.add(photoId);
    if (applied) this.#set({ strip: new Map(this.state.get().strip).set(photoId, applied) });
  }
}
