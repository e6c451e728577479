import { type ClassCounts, classCounts } from '../../core/cover/classCounts.ts';
import { coverOfCounts } from '../../core/cover/coverOfMask.ts';
import type { MeasuredArea } from '../../core/geometry/measuredArea.ts';
import type { PixelBox } from '../../core/geometry/pixelBox.ts';
import { boxOfPhoto } from '../../core/geometry/pixelBox.ts';
import { collectRuns, type PixelRuns } from '../../core/geometry/pixelRuns.ts';
import type { PhotoPoint } from '../../core/geometry/points.ts';
import { applyPatch } from '../../core/mask/applyPatch.ts';
import { areaOfMask } from '../../core/mask/areaOfMask.ts';
import { beginStroke } from '../../core/mask/brushStroke.ts';
import { growByLikeness, type LikenessField } from '../../core/mask/colourLikeness.ts';
import { type CorrectedMask, correctedMask } from '../../core/mask/correctedMask.ts';
import { encodeCorrections, encodePatch } from '../../core/mask/correctionBytes.ts';
import { type CorrectionPatch, invertPatch } from '../../core/mask/correctionPatch.ts';
import { correctionSummary } from '../../core/mask/correctionSummary.ts';
import { abandonEdit, beginEdit, finishEdit, type Paint, paintRuns } from '../../core/mask/maskEdit.ts';
import { relabelLayer, relabelPatch } from '../../core/mask/relabel.ts';
import { paintMajority } from '../../core/mask/smoothOutline.ts';
import { trainingPixels } from '../../core/mask/trainingPixels.ts';
import { updateCounts } from '../../core/mask/updateCounts.ts';
import { repeatableRandom } from '../../core/trial/repeatableRandom.ts';
import type { ChangeOutcome } from '../../storage/correctionStore.ts';
import type { Written } from '../../storage/storageProblem.ts';
import type { CorrectWorker } from '../measuring/correctWorker.ts';
import { correctedFigure, correctionsSha256 } from './correctedFigure.ts';
import type { CorrectingNotice, CorrectingState, GestureKind, Stroke } from './correcting/correctingState.ts';
import { GestureRecord } from './correcting/gestureRecord.ts';
import { type LayerToStore, LayerWrites } from './correcting/layerWrites.ts';
import { RegionWorker } from './correcting/regionWorker.ts';
import { ObservableValue } from './observable.ts';
import { readCorrections, readPatch, type StoredClasses, storedClasses } from './readCorrections.ts';
import type { Figure } from './session.ts';
import type { OpenPart, PartContext } from './sessionPart.ts';

/** How long hands rest before the corrected figure is stored. */
export const REST_MS = 1000;
/** Growth by likeness ends this far from the seed, in photo pixels. */
const LIKENESS_REACH_PX = 500;
/**
 * A step from pixel to pixel that counts as an edge, in CIELAB units. Two to three units are just seen side by side
 * (common practice, no source); between leaves of one kind steps are larger than that.
 */
const SHARP_STEP = 5;
/** Pixels of each corrected class that teach. */
const TAUGHT_PIXELS = 60;

export type CorrectingParts = Pick<PartContext, 'store' | 'photos' | 'settle' | 'mask'> & {
  readonly startWorker: () => CorrectWorker;
  readonly now: () => Date;
  readonly newId: () => string;
};

/** The part that corrects the mask of one photo. */
export const openCorrecting =
  (photoId: string): OpenPart<Correcting> =>
  async ({ store, photos, settle, mask, parts, onClose }) => {
    const correcting = new Correcting(photoId, {
      store,
      photos,
      settle,
      mask,
      startWorker: parts.startCorrectWorker,
      now: parts.now,
      newId: parts.newId,
    });
    onClose(() => correcting.stop());
    await correcting.load();
    return correcting;
  };

/**
 * Correcting the mask of one photo by hand.
 *
 * The mask follows a gesture at once; when the gesture ends it becomes a patch and goes to the store, one transaction
 * each. A change that the store refuses, because another tab was first or there is no room, takes the screen back to
 * what is stored. When hands rest, the corrected figure is stored beside the automatic one.
 */
export class Correcting {
  readonly state = new ObservableValue<CorrectingState>({
    phase: 'opening',
    problem: null,
    classes: [],
    covers: null,
    summary: null,
    gestures: [],
    canUndo: false,
    canRedo: false,
    busy: false,
    unstored: 0,
    notice: null,
    preview: null,
  });
  /** Who corrects, by a typed name; null for nobody named. */
  by: string | null = null;
  readonly #photoId: string;
  readonly #parts: CorrectingParts;
  readonly #painted = new Set<(box: PixelBox) => void>();
  #mask: CorrectedMask | null = null;
  #figure: Figure | null = null;
  #area: MeasuredArea | null = null;
  #automaticCounts: ClassCounts | null = null;
  #counts: ClassCounts | null = null;
  #classes: StoredClasses = storedClasses(null, []);
  #gestures = new GestureRecord();
  readonly #writes: LayerWrites;
  readonly #worker: RegionWorker;
  /** Counts loadings, so that what was begun before one is known to be late. */
  #generation = 0;
  #likeness: LikenessField | null = null;
  #reloadAfterGesture: (() => void) | null = null;
  /** Why the last change was refused; said until the next one. */
  #refused: CorrectingNotice | null = null;
  #restTimer: ReturnType<typeof setTimeout> | undefined;
  #figureDue = false;
  #loading: Promise<void> = Promise.resolve();
  #stopped = false;
  readonly #endings: (() => void)[] = [];

  constructor(photoId: string, parts: CorrectingParts) {
    this.#photoId = photoId;
    this.#parts = parts;
    const { store, photos, settle } = parts;
    this.#worker = new RegionWorker(parts.startWorker, () => store.photos.bytes(photoId));
    this.#writes = new LayerWrites({
      encode: () => this.#encoded(),
      settle,
      onStored: () => this.#set({ unstored: this.state.get().unstored - 1 }),
      onRefused: (why) => {
        this.#set({ unstored: 0 });
        this.#refused = why;
        // not awaited: loading waits for the writes
        void this.load(why);
      },
    });
    this.#endings.push(
      store.observeCorrections((ids) => {
        if (ids.includes(photoId)) void this.#lookForOthers();
      }),
      photos.subscribe(() => {
        const next = this.#currentFigure();
        if (next && next.id !== this.#figure?.id) this.#reload(null);
      }),
    );
  }

  /** The mask as it is now; the same object while it is edited. */
  get mask(): CorrectedMask | null {
    return this.#mask;
  }

  get area(): MeasuredArea | null {
    return this.#area;
  }

  /** Told of every box of pixels that was painted. @returns the way to stop */
  onPainted(listener: (box: PixelBox) => void): () => void {
    this.#painted.add(listener);
    return () => void this.#painted.delete(listener);
  }

  /** Reads mask and corrections again once the gesture under way has ended. */
  #reload(notice: CorrectingNotice | null): void {
    if (this.#mask?.editing) this.#reloadAfterGesture = () => this.#reload(notice);
    else void this.load(notice);
  }

  /** A gesture has ended. */
  #released(): void {
    const reload = this.#reloadAfterGesture;
    this.#reloadAfterGesture = null;
    reload?.();
  }

  /** Reads mask and corrections, again after either was changed elsewhere. What is under way is stored first. */
  load(notice: CorrectingNotice | null = null): Promise<void> {
    this.#generation += 1;
    const generation = this.#generation;
    this.#writes.flush();
    this.#loading = this.#read(generation, notice);
    return this.#loading;
  }

  async #read(generation: number, notice: CorrectingNotice | null): Promise<void> {
    const { store, mask: maskOf } = this.#parts;
    await this.#writes.written();
    const figure = this.#currentFigure();
    const mask = figure && (await maskOf(this.#photoId));
    const stored = await store.corrections.read(this.#photoId);
    if (generation !== this.#generation || this.#stopped) return;
    if (!mask || !figure || figure.id !== this.#currentFigure()?.id) {
      // the photo is being measured: what changes then calls this again
      if (!this.#mask) this.#set({ phase: 'no-mask' });
      return;
    }
    const { classes } = figure.settings;
    const { corrections, gestures } = stored;
    const classIds = classes.map(({ id }) => id);
    const read = readCorrections(corrections, mask, classIds);
    if (!read.ok) {
      this.#mask = null;
      this.#set({ phase: 'unreadable', problem: read.problem, classes });
      return;
    }
    this.#figure = figure;
    this.#area = areaOfMask(mask, figure.settings);
    this.#classes = read.classes;
    this.#mask = correctedMask(mask, read.layer, classes.length);
    this.#automaticCounts = classCounts(mask, this.#area, classes.length);
    this.#counts = classCounts(this.#mask.effective, this.#area, classes.length);
    this.#writes.revision = corrections?.revision ?? 0;
    this.#gestures = new GestureRecord(
      gestures.map((record) => ({ record, patch: readPatch(record, mask, read.classes) })),
    );
    this.#worker.forgetPhoto();
    this.#likeness = null;
    this.#set({
      phase: 'ready',
      problem: null,
      classes,
      summary: correctionSummary(this.#mask, this.#area, this.#automaticCounts),
      notice: this.#refused ?? notice,
      busy: false,
      preview: null,
      unstored: 0,
    });
    this.#tell(boxOfPhoto(mask));
    if (corrections?.figureDue === 1 || this.#figureIsOld()) this.#rest();
  }

  /** Puts the brush down; null while nothing can be painted. */
  begin(paint: Paint): Stroke | null {
    const mask = this.#ready();
    if (!mask) return null;
    const generation = this.#generation;
    const edit = beginEdit(mask);
    const stroke = beginStroke(edit, paint);
    const isOver = () => generation !== this.#generation || !mask.editing;
    let painted: PixelBox | null = null;
    return {
      moveTo: (point) => {
        if (isOver()) return;
        const box = stroke.moveTo(point);
        if (!box) return;
        painted = box;
        this.#tell(box);
      },
      end: () => {
        if (isOver()) return;
        this.#keep(finishEdit(edit), 'brush');
        this.#released();
      },
      cancel: () => {
        if (isOver()) return;
        abandonEdit(edit);
        if (painted) this.#tell(boxOfPhoto(mask.automatic));
        this.#released();
      },
    };
  }

  /** Paints a region in one go. @returns whether anything changed */
  fill(region: PixelRuns, paint: Paint, kind: GestureKind): boolean {
    const mask = this.#ready();
    if (!mask) return false;
    const edit = beginEdit(mask);
    const box = paintRuns(edit, region, paint);
    if (box) this.#tell(box);
    return this.#keep(finishEdit(edit), kind);
  }

  /** Gives the connected patch of one class round a point another class. */
  async fillPatch(at: PhotoPoint, paint: Paint): Promise<boolean> {
    const region = await this.#work((worker, mask) => worker.patch(mask.effective, at));
    if (!region) return false;
    if (region.pixels === 0) this.#set({ notice: { code: 'nothing-there' } });
    return this.fill(region, paint, 'patch');
  }

  /** Smooths the outlines of classes within a region. */
  async smooth(region: PixelRuns, radiusPx: number): Promise<boolean> {
    const majority = await this.#work((worker, mask) =>
      worker.majority(mask.effective, mask.classCount, region, radiusPx),
    );
    const mask = majority && this.#ready();
    if (!mask) return false;
    const edit = beginEdit(mask);
    const box = paintMajority(edit, majority);
    if (box) this.#tell(box);
    return this.#keep(finishEdit(edit), 'smooth');
  }

  /** Changes every measured pixel of one class to another label. */
  changeEverywhere(from: number, label: number): boolean {
    const mask = this.#ready();
    if (!mask) return false;
    const { widthPx, heightPx, labels } = mask.effective;
    const region = collectRuns((visit) => {
      for (let y = 0; y < heightPx; y += 1) {
        const end = (y + 1) * widthPx;
        for (let i = labels.indexOf(from, y * widthPx); i >= 0 && i < end; i = labels.indexOf(from, i)) {
          let to = i + 1;
          while (to < end && labels[to] === from) to += 1;
          visit(y, i - y * widthPx, to - y * widthPx);
          i = to;
        }
      }
    });
    return this.fill(region, { label }, 'change-class');
  }

  /** Prepares growth by colour likeness from a point. @returns whether something can be grown there */
  async seedLikeness(at: PhotoPoint): Promise<boolean> {
    this.dropLikeness();
    const [x, y] = at;
    const box = {
      left: x - LIKENESS_REACH_PX,
      top: y - LIKENESS_REACH_PX,
      right: x + LIKENESS_REACH_PX,
      bottom: y + LIKENESS_REACH_PX,
    };
    const field = await this.#work(async (worker) => {
      await this.#worker.givePhoto(this.#figure!.settings);
      return worker.likeness(at, box);
    });
    this.#likeness = field;
    if (!field) this.#set({ notice: this.state.get().notice ?? { code: 'nothing-there' } });
    return field !== null;
  }

  /** Shows what growth reaches with this tolerance, in CIELAB units, past sharp edges or up to them. */
  growLikeness(tolerance: number, stopsAtEdges: boolean): void {
    if (!this.#likeness) return;
    const edge = stopsAtEdges ? { largestStep: SHARP_STEP } : {};
    this.#set({ preview: growByLikeness(this.#likeness, { tolerance, ...edge }) });
  }

  /** Paints what is shown. */
  applyLikeness(paint: Paint): boolean {
    const { preview } = this.state.get();
    this.dropLikeness();
    return preview !== null && this.fill(preview, paint, 'likeness');
  }

  dropLikeness(): void {
    this.#likeness = null;
    if (this.state.get().preview) this.#set({ preview: null });
  }

  undo(): void {
    this.#step(true);
  }

  redo(): void {
    this.#step(false);
  }

  /** Says why gestures were made. */
  async giveReason(sequences: readonly number[], reason: string): Promise<void> {
    this.#writes.flush();
    await this.#writes.written();
    const { store, settle } = this.#parts;
    const written = await store.corrections.giveReason(this.#photoId, sequences, reason);
    settle(written);
    if (!written.written) return;
    this.#gestures.giveReason(sequences, reason);
    this.#set({});
  }

  /**
   * Puts pixels drawn from the corrections among the strokes that teach: only of classes that were corrected.
   *
   * @returns how many, or null where they could not be stored
   */
  async teach(): Promise<number | null> {
    const mask = this.#ready();
    if (!mask) return 0;
    const { classes } = this.state.get();
    const { store, settle, now, newId } = this.#parts;
    // the same corrections give the same pixels
    const random = repeatableRandom(this.#writes.revision);
    const at = now().toISOString();
    const strokes = trainingPixels(mask, { pixelsPerClass: TAUGHT_PIXELS, random }).map((pixel) => ({
      id: newId(),
      photoId: this.#photoId,
      classId: classes[pixel.label - 1]!.id,
      radiusPx: 0,
      points: [pixel.at],
      by: this.by,
      at,
    }));
    const written = await store.teaching.replaceStrokes([], strokes);
    settle(written);
    return written.written ? strokes.length : null;
  }

  /** Photos that somebody looked at. */
  async reviewed(): Promise<ReadonlySet<string>> {
    const reviews = await this.#parts.store.reviews.all();
    return new Set(
      [...reviews.values()].filter(({ verdict }) => verdict !== 'skipped').map((one) => one.photoId),
    );
  }

  /** Notes that the names of treatments were shown. */
  async noteTreatmentsShown(trialId: string, ratingDate: string | null): Promise<void> {
    const { store, settle } = this.#parts;
    settle(await store.corrections.noteTreatmentsShown(trialId, ratingDate, this.by ?? ''));
  }

  dismissNotice(): void {
    this.#refused = null;
    this.#set({ notice: null });
  }

  /** Stores what is under way and the corrected figure; done when all is stored. */
  async settled(): Promise<void> {
    await this.#loading;
    this.#writes.flush();
    await this.#writes.written();
    clearTimeout(this.#restTimer);
    await this.#makeFigure();
  }

  async stop(): Promise<void> {
    if (this.#stopped) return;
    const storing = this.settled();
    for (const end of this.#endings) end();
    this.#worker.stop();
    await storing;
    this.#stopped = true;
    this.#painted.clear();
  }

  #currentFigure(): Figure | null {
    const photo = this.#parts.photos.get().find(({ id }) => id === this.#photoId);
    return photo?.work === null ? photo.figure : null;
  }

  /** Whether the stored corrected figure belongs to another automatic one. */
  #figureIsOld(): boolean {
    const photo = this.#parts.photos.get().find(({ id }) => id === this.#photoId);
    const corrected = photo?.figures.corrected;
    return corrected !== undefined && corrected.measuredAt < (photo?.figure?.measuredAt ?? '');
  }

  /** The mask where a gesture may begin. */
  #ready(): CorrectedMask | null {
    const { phase, busy } = this.state.get();
    if (phase !== 'ready' || busy || this.#stopped || !this.#mask || this.#mask.editing) return null;
    this.#writes.flush();
    return this.#mask;
  }

  #tell(box: PixelBox): void {
    for (const listener of this.#painted) listener(box);
  }

  #set(change: Partial<CorrectingState>): void {
    const covers =
      this.#counts && this.#automaticCounts
        ? { automatic: sharesOf(this.#automaticCounts), corrected: sharesOf(this.#counts) }
        : null;
    this.state.set({
      ...this.state.get(),
      ...change,
      gestures: this.#gestures.inForce(),
      covers,
      canUndo: this.#gestures.canUndo,
      canRedo: this.#gestures.canRedo,
    });
  }

  /** A finished gesture: counted, put on record, on its way into the store. @returns whether anything changed */
  #keep(patch: CorrectionPatch | null, gesture: GestureKind): boolean {
    if (!patch) return false;
    const { by } = this;
    const at = this.#parts.now().toISOString();
    const { sequence, forgotten } = this.#gestures.add(patch, { gesture, by, at });
    this.#count(patch);
    const { toStore } = this.#classes;
    this.#change((layer) =>
      this.#parts.store.corrections.keep({
        ...layer,
        forgotten,
        sequence,
        gesture,
        patch: encodePatch(toStore ? relabelPatch(patch, toStore) : patch).buffer,
        by,
      }),
    );
    return true;
  }

  #step(back: boolean): void {
    const mask = this.#ready();
    const step = mask && this.#gestures.step(back);
    if (!mask || !step) return;
    const applied = back ? invertPatch(step.patch) : step.patch;
    applyPatch(mask, applied);
    this.#count(applied);
    this.#tell(applied.dirtyBox);
    this.#change((layer) => this.#parts.store.corrections.step(layer, step.sequence, back));
  }

  #count(patch: CorrectionPatch): void {
    this.#counts = updateCounts(this.#counts!, patch, this.#mask!.automatic, this.#area!);
  }

  #change(write: (layer: LayerToStore) => Promise<Written<ChangeOutcome>>): void {
    this.#refused = null;
    this.#writes.add(write);
    this.#set({ unstored: this.state.get().unstored + 1, notice: null });
    this.#rest();
  }

  #encoded() {
    const { toStore, classIds } = this.#classes;
    const { corrections } = this.#mask!;
    const layer = encodeCorrections(toStore ? relabelLayer(corrections, toStore) : corrections).buffer;
    return { photoId: this.#photoId, layer, classIds };
  }

  #rest(): void {
    this.#figureDue = true;
    clearTimeout(this.#restTimer);
    this.#restTimer = setTimeout(() => void this.#atRest(), REST_MS);
  }

  async #atRest(): Promise<void> {
    if (this.#mask?.editing || this.#stopped) return this.#stopped ? undefined : this.#rest();
    this.#writes.flush();
    await this.#writes.written();
    await this.#makeFigure();
  }

  async #makeFigure(): Promise<void> {
    const [mask, area, counts, figure] = [this.#mask, this.#area, this.#counts, this.#figure];
    if (!this.#figureDue || this.#stopped || !mask || !area || !counts || !figure || mask.editing) return;
    this.#figureDue = false;
    const { revision } = this.#writes;
    if (revision === 0) return;
    const { store, settle } = this.#parts;
    const none = mask.corrections.tiles.size === 0;
    const summary = correctionSummary(mask, area, this.#automaticCounts!);
    const sha256 = await correctionsSha256(mask.corrections);
    const written = await store.corrections.keepFigure({
      photoId: this.#photoId,
      revision,
      figure: none ? null : correctedFigure(figure, counts, summary),
      correctionsSha256: sha256,
      by: this.by,
    });
    settle(written);
    if (!written.written || revision !== this.#writes.revision) this.#figureDue = true;
    else if (!this.#stopped) this.#set({ summary });
  }

  /** Another tab may have changed this photo. */
  async #lookForOthers(): Promise<void> {
    const generation = this.#generation;
    await this.#writes.written();
    const stored = await this.#parts.store.corrections.layer(this.#photoId);
    const isBehind = (stored?.revision ?? 0) > this.#writes.revision;
    if (!isBehind || generation !== this.#generation || this.#stopped) return;
    this.#reload({ code: 'changed-in-other-tab' });
  }

  /** Has the worker do something; null where it could not, or the mask was read anew meanwhile. */
  async #work<T>(task: (worker: CorrectWorker, mask: CorrectedMask) => Promise<T>): Promise<T | null> {
    const mask = this.#ready();
    if (!mask) return null;
    const generation = this.#generation;
    this.#set({ busy: true, notice: null });
    let answer: T | null = null;
    try {
      answer = await this.#worker.do((worker) => task(worker, mask));
    } catch (error) {
      this.#set({ notice: { code: 'worker-stopped', detail: (error as Error).message } });
    }
    if (generation !== this.#generation || this.#stopped) return null;
    this.#set({ busy: false });
    return answer;
  }
}

const sharesOf = (counts: ClassCounts): readonly number[] =>
  coverOfCounts(counts)?.map(({ coverFraction }) => coverFraction) ?? [];
