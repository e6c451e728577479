import { type PatchChange, patchChange } from '../../core/frame/patchChange.ts';
import type { PatchCover, PatchGrid } from '../../core/frame/patchCover.ts';
import type { PlotFrame } from '../../core/geometry/plotFrame.ts';
import { type PatchWorker, startPatchWorker } from '../measuring/startPatchWorker.ts';
import { type MaskThatCounts, maskThatCounts } from './maskThatCounts.ts';
import type { PhotoSummary } from './session.ts';
import type { OpenPart, PartContext } from './sessionPart.ts';

/** One date of a fixed place; `corners` begin where the patches begin. */
export interface PlaceOnDate {
  readonly photo: PhotoSummary;
  readonly corners: PlotFrame['corners'];
}

export type PlaceChange =
  | {
      readonly state: 'done';
      readonly change: PatchChange;
      /** Whether the mask of each date holds corrections made by hand. */
      readonly corrected: { readonly before: boolean; readonly after: boolean };
    }
  | { readonly state: 'waiting' }
  | { readonly state: 'other-classes' };

/** The part that compares dates of one place. */
export const openFixedPlaces: OpenPart<FixedPlaces> = async (context) => {
  const places = new FixedPlaces(context, startPatchWorker());
  context.onClose(() => places.stop());
  return places;
};

/** Compares dates of one place patch by patch, away from the page's own thread, by the masks that count. */
export class FixedPlaces {
  readonly #context: Pick<PartContext, 'store' | 'photos' | 'mask'>;
  readonly #worker: PatchWorker;

  constructor(context: Pick<PartContext, 'store' | 'photos' | 'mask'>, worker: PatchWorker) {
    this.#context = context;
    this.#worker = worker;
  }

  /** The mask of a photo with its corrections; null while there is none. */
  mask(photoId: string): Promise<MaskThatCounts | null> {
    return maskThatCounts(this.#context, photoId);
  }

  async compare(before: PlaceOnDate, after: PlaceOnDate, grid: PatchGrid): Promise<PlaceChange> {
    const classesOf = ({ photo }: PlaceOnDate) => photo.figure?.settings.classes.map(({ id }) => id).join();
    if (classesOf(before) !== classesOf(after)) return { state: 'other-classes' };
    const [p, q] = [await this.#patches(before, grid), await this.#patches(after, grid)];
    if (!p || !q) return { state: 'waiting' };
    const corrected = { before: p.corrected, after: q.corrected };
    return { state: 'done', change: patchChange(p.cover, q.cover), corrected };
  }

  stop(): void {
    this.#worker.terminate();
  }

  async #patches(
    { photo, corners }: PlaceOnDate,
    grid: PatchGrid,
  ): Promise<{ readonly cover: PatchCover; readonly corrected: boolean } | null> {
    const settings = photo.figure?.settings;
    const frame = settings?.frame;
    if (!settings || !frame || photo.stale || photo.work) return null;
    const found = await this.mask(photo.id);
    if (!found) return null;
    const copy = { ...found.mask, labels: found.mask.labels.slice() };
    const request = { mask: copy, settings: { ...settings, frame }, corners, grid };
    return { cover: await this.#worker.patchCover(request), corrected: found.corrected };
  }
}
