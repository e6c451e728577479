import { type ClassCounts, classCounts } from '../../core/cover/classCounts.ts';
import { coverOfCounts } from '../../core/cover/coverOfMask.ts';
import type { MeasuredArea } from '../../core/geometry/measuredArea.ts';
import type { PixelBox } from '../../core/geometry/pixelBox.ts';
import { boxOfPhoto } from '../../core/geometry/pixelBox.ts';
import { collectRuns, type PixelRuns } from '../../core/geometry/pixelRuns.ts';
import type { PhotoPoint } from '../../core/geometry/points.ts';
import { applyPatch } from '../../core/mask/applyPatch.ts';
import { areaOfMask } from '../../core/mask/areaOfMask.ts';
import type { BrushPoint } from '../../core/mask/brushRuns.ts';
import { beginStroke } from '../../core/mask/brushStroke.ts';
import { growByLikeness, type LikenessField } from '../../core/mask/colourLikeness.ts';
import { type CorrectedMask, correctedMask } from '../../core/mask/correctedMask.ts';
import {
  type CorrectionBytesProblem,
  encodeCorrections,
  encodePatch,
} from '../../core/mask/correctionBytes.ts';
import { type CorrectionPatch, invertPatch } from '../../core/mask/correctionPatch.ts';
import { type CorrectionSummary, correctionSummary } from '../../core/mask/correctionSummary.ts';
import { type EditHistory, NO_EDITS, recordEdit, redoStep, undoStep } from '../../core/mask/editHistory.ts';
import { abandonEdit, beginEdit, finishEdit, type Paint, paintRuns } from '../../core/mask/maskEdit.ts';
import { relabelLayer, relabelPatch } from '../../core/mask/relabel.ts';
import { paintMajority } from '../../core/mask/smoothOutline.ts';
import { trainingPixels } from '../../core/mask/trainingPixels.ts';
import { updateCounts } from '../../core/mask/updateCounts.ts';
import type { CoverClass } from '../../core/trial/coverClass.ts';
import { repeatableRandom } from '../../core/trial/repeatableRandom.ts';
import type { ChangeOutcome } from '../../storage/correctionStore.ts';
import type { CorrectionPatchRecord } from '../../storage/records/correctionRecords.ts';
import type { Written } from '../../storage/storageProblem.ts';
import type { CorrectWorker } from '../measuring/correctWorker.ts';
import { correctedFigure, correctionsSha256 } from './correctedFigure.ts';
import { ObservableValue } from './observable.ts';
import { readCorrections, readPatch, type StoredClasses, storedClasses } from './readCorrections.ts';
import type { Figure } from './session.ts';
import type { OpenPart, PartContext } from './sessionPart.ts';

/** Which tool made a gesture. */
export type GestureKind = 'brush' | 'outline' | 'patch' | 'likeness' | 'smooth' | 'change-class';

/** A gesture as the record shows it. */
export interface KeptGesture extends Pick<CorrectionPatchRecord, 'sequence' | 'by' | 'at' | 'reason'> {
  readonly gesture: string;
  readonly pixels: number;
}

/** Cover in class order, 0..1: as computed and with what hands said. */
export interface BothCovers {
  readonly automatic: readonly number[];
  readonly corrected: readonly number[];
}

/** Why the last change is not to be seen. */
export type CorrectingNotice =
  /** Another tab changed this photo first; what it stored is shown now. */
  | { readonly code: 'other-tab-was-first' }
  /** Another tab changed this photo; that is shown now. */
  | { readonly code: 'changed-in-other-tab' }
  /** The browser could not store it; what is stored is shown now. */
  | { readonly code: 'not-stored' }
  /** The worker that fills regions stopped. */
  | { readonly code: 'worker-stopped'; readonly detail: string }
  /** Nothing is measured where the fill was to begin. */
  | { readonly code: 'nothing-there' };

export interface CorrectingState {
  readonly phase: 'opening' | 'no-mask' | 'ready' | 'unreadable';
  /** Of `unreadable`. */
  readonly problem: CorrectionBytesProblem | null;
  readonly classes: readonly CoverClass[];
  readonly covers: BothCovers | null;
  /** Brought up to date when hands rest. */
  readonly summary: CorrectionSummary | null;
  /** In force, the newest first. */
  readonly gestures: readonly KeptGesture[];
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  /** A fill is being worked out. */
  readonly busy: boolean;
  /** Gestures that are on their way into the store. */
  readonly unstored: number;
  readonly notice: CorrectingNotice | null;
  /** What growth by likeness would reach. */
  readonly preview: PixelRuns | null;
}

/** A brush on its way over the mask. */
export interface Stroke {
  moveTo(point: BrushPoint): void;
  end(): void;
  cancel(): void;
}

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
  #history: EditHistory = NO_EDITS;
  #patches = new Map<number, CorrectionPatch>();
  #records = new Map<number, KeptGesture>();
  #nextSequence = 1;
  /** The state on screen once all that is under way is stored. */
  #revision = 0;
  /** Counts loadings, so that what was begun before one is known to be late. */
  #generation = 0;
  /** A change whose layer has not been turned into bytes yet. */
  #pending: (() => void) | null = null;
  #writes: Promise<void> = Promise.resolve();
  #worker: CorrectWorker | null = null;
  #workerHasPhoto = false;
  #likeness: LikenessField | null = null;
  #reloadAfterGesture: (() => void) | null = null;
  /** Counts refusals of the store: what was queued behind a refused change is given up with it. */
  #refusals = 0;
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
    const { store, photos } = parts;
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
    this.#flush();
    this.#loading = this.#read(generation, notice);
    return this.#loading;
  }

  async #read(generation: number, notice: CorrectingNotice | null): Promise<void> {
    const { store, mask: maskOf } = this.#parts;
    await this.#writes;
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
    this.#revision = corrections?.revision ?? 0;
    this.#takeHistory(gestures);
    this.#workerHasPhoto = false;
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

  /** Undo ends at a gesture whose bytes are damaged. */
  #takeHistory(gestures: readonly CorrectionPatchRecord[]): void {
    this.#patches = new Map();
    this.#records = new Map();
    const size = this.#mask!.automatic;
    for (const { sequence, gesture, by, at, reason, ...stored } of gestures) {
      const patch = readPatch({ sequence, gesture, by, at, reason, ...stored }, size, this.#classes);
      if (!patch) {
        this.#patches.clear();
        this.#records.clear();
        continue;
      }
      this.#patches.set(sequence, patch);
      this.#records.set(sequence, { sequence, gesture, by, at, reason, pixels: patch.changedPixels });
    }
    this.#nextSequence = Math.max(0, ...gestures.map(({ sequence }) => sequence)) + 1;
    const kept = gestures.filter(({ sequence }) => this.#patches.has(sequence));
    const ids = (undone: boolean) =>
      kept.filter((one) => one.undone === undone).map((one) => `${one.sequence}`);
    this.#history = { done: ids(false), undone: ids(true).reverse() };
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
      await this.#givePhoto(worker);
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
    const step = undoStep(this.#history);
    const mask = step && this.#ready();
    if (!step || !mask) return;
    this.#step(Number(step.patchId), true, step.history);
  }

  redo(): void {
    const step = redoStep(this.#history);
    const mask = step && this.#ready();
    if (!step || !mask) return;
    this.#step(Number(step.patchId), false, step.history);
  }

  /** Says why gestures were made. */
  async giveReason(sequences: readonly number[], reason: string): Promise<void> {
    this.#flush();
    await this.#writes;
    const { store, settle } = this.#parts;
    const written = await store.corrections.giveReason(this.#photoId, sequences, reason);
    settle(written);
    if (!written.written) return;
    for (const sequence of sequences) {
      const record = this.#records.get(sequence);
      if (record) this.#records.set(sequence, { ...record, reason });
    }
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
    const random = repeatableRandom(this.#revision);
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
    this.#flush();
    await this.#writes;
    clearTimeout(this.#restTimer);
    await this.#makeFigure();
  }

  async stop(): Promise<void> {
    if (this.#stopped) return;
    const storing = this.settled();
    for (const end of this.#endings) end();
    this.#worker?.terminate();
    this.#worker = null;
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
    this.#flush();
    return this.#mask;
  }

  #tell(box: PixelBox): void {
    for (const listener of this.#painted) listener(box);
  }

  #set(change: Partial<CorrectingState>): void {
    const { done, undone } = this.#history;
    const gestures =
      change.gestures ??
      done.toReversed().flatMap((id) => {
        const record = this.#records.get(Number(id));
        return record ? [record] : [];
      });
    const covers =
      this.#counts && this.#automaticCounts
        ? { automatic: sharesOf(this.#automaticCounts), corrected: sharesOf(this.#counts) }
        : null;
    this.state.set({
      ...this.state.get(),
      ...change,
      gestures,
      covers,
      canUndo: done.length > 0,
      canRedo: undone.length > 0,
    });
  }

  /** A finished gesture: counted, put into the history, on its way into the store. @returns whether anything changed */
  #keep(patch: CorrectionPatch | null, kind: GestureKind): boolean {
    if (!patch) return false;
    const sequence = this.#nextSequence;
    this.#nextSequence += 1;
    const { history, forgotten } = recordEdit(this.#history, `${sequence}`);
    const gone = forgotten.map(Number);
    this.#history = history;
    for (const one of gone) {
      this.#patches.delete(one);
      this.#records.delete(one);
    }
    const { by } = this;
    this.#patches.set(sequence, patch);
    this.#records.set(sequence, {
      sequence,
      gesture: kind,
      by,
      at: this.#parts.now().toISOString(),
      reason: null,
      pixels: patch.changedPixels,
    });
    this.#count(patch);
    const { toStore } = this.#classes;
    this.#change((layer) =>
      this.#parts.store.corrections.keep({
        ...layer,
        forgotten: gone,
        sequence,
        gesture: kind,
        patch: encodePatch(toStore ? relabelPatch(patch, toStore) : patch).buffer,
        by,
      }),
    );
    return true;
  }

  #step(sequence: number, undone: boolean, history: EditHistory): void {
    const patch = this.#patches.get(sequence)!;
    const applied = undone ? invertPatch(patch) : patch;
    applyPatch(this.#mask!, applied);
    this.#history = history;
    this.#count(applied);
    this.#tell(applied.dirtyBox);
    this.#change((layer) => this.#parts.store.corrections.step(layer, sequence, undone));
  }

  #count(patch: CorrectionPatch): void {
    this.#counts = updateCounts(this.#counts!, patch, this.#mask!.automatic, this.#area!);
  }

  /**
   * Sends a change to the store. The layer becomes bytes once the screen has had its turn, and before the next gesture
   * can change it.
   */
  #change(
    write: (layer: {
      photoId: string;
      revision: number;
      layer: ArrayBuffer;
      classIds: readonly string[];
    }) => Promise<Written<ChangeOutcome>>,
  ): void {
    const refusals = this.#refusals;
    const revision = this.#revision;
    this.#revision += 1;
    this.#figureDue = true;
    this.#pending = () => {
      const { toStore, classIds } = this.#classes;
      const { corrections } = this.#mask!;
      const layer = encodeCorrections(toStore ? relabelLayer(corrections, toStore) : corrections).buffer;
      this.#writes = this.#writes.then(async () => {
        if (refusals !== this.#refusals) return;
        const refused = await this.#store(write({ photoId: this.#photoId, revision, layer, classIds }));
        this.#set({ unstored: refused ? 0 : this.state.get().unstored - 1 });
        if (!refused) return;
        this.#refusals += 1;
        this.#refused = refused;
        // not awaited: loading waits for the writes
        void this.load(refused);
      });
    };
    this.#refused = null;
    this.#set({ unstored: this.state.get().unstored + 1, notice: null });
    setTimeout(() => this.#flush(), 0);
    this.#rest();
  }

  /** @returns why the change was refused */
  async #store(writing: Promise<Written<ChangeOutcome>>): Promise<CorrectingNotice | null> {
    const written = await writing;
    this.#parts.settle(written);
    if (!written.written) return { code: 'not-stored' };
    return written.value.state === 'kept' ? null : { code: 'other-tab-was-first' };
  }

  #flush(): void {
    const pending = this.#pending;
    this.#pending = null;
    pending?.();
  }

  #rest(): void {
    this.#figureDue = true;
    clearTimeout(this.#restTimer);
    this.#restTimer = setTimeout(() => void this.#atRest(), REST_MS);
  }

  async #atRest(): Promise<void> {
    if (this.#mask?.editing || this.#stopped) return this.#stopped ? undefined : this.#rest();
    this.#flush();
    await this.#writes;
    await this.#makeFigure();
  }

  async #makeFigure(): Promise<void> {
    const [mask, area, counts, figure] = [this.#mask, this.#area, this.#counts, this.#figure];
    if (!this.#figureDue || this.#stopped || !mask || !area || !counts || !figure || mask.editing) return;
    this.#figureDue = false;
    const revision = this.#revision;
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
    if (!written.written || revision !== this.#revision) this.#figureDue = true;
    else if (!this.#stopped) this.#set({ summary });
  }

  /** Another tab may have changed this photo. */
  async #lookForOthers(): Promise<void> {
    const generation = this.#generation;
    await this.#writes;
    const stored = await this.#parts.store.corrections.layer(this.#photoId);
    const isBehind = (stored?.revision ?? 0) > this.#revision;
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
      this.#worker ??= this.#startWorker();
      answer = await Promise.race([task(this.#worker, mask), this.#death]);
    } catch (error) {
      this.#worker?.terminate();
      this.#worker = null;
      this.#workerHasPhoto = false;
      this.#set({ notice: { code: 'worker-stopped', detail: (error as Error).message } });
    }
    if (generation !== this.#generation || this.#stopped) return null;
    this.#set({ busy: false });
    return answer;
  }

  #death: Promise<never> = new Promise(() => {});

  #startWorker(): CorrectWorker {
    const worker = this.#parts.startWorker();
    this.#workerHasPhoto = false;
    this.#death = new Promise((_, reject) => {
      worker.onDeath((detail) => reject(new Error(detail)));
    });
    this.#death.catch(() => {});
    return worker;
  }

  async #givePhoto(worker: CorrectWorker): Promise<void> {
    if (this.#workerHasPhoto) return;
    const bytes = await this.#parts.store.photos.bytes(this.#photoId);
    if (!bytes) throw new Error('the browser no longer holds the bytes of this photo');
    const outcome = await worker.read(bytes, this.#figure!.settings);
    if (!outcome.ok) throw new Error(outcome.problem.code);
    this.#workerHasPhoto = true;
  }
}

const sharesOf = (counts: ClassCounts): readonly number[] =>
  coverOfCounts(counts)?.map(({ coverFraction }) => coverFraction) ?? [];
