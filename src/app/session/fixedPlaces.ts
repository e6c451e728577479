import { type PatchChange, patchChange } from '../../core/frame/patchChange.ts';
import type { PatchCover, PatchGrid } from '../../core/frame/patchCover.ts';
import type { PlotFrame } from '../../core/geometry/plotFrame.ts';
import { startPatchWorker } from '../measuring/startPatchWorker.ts';
import type { PhotoSummary, Session } from './session.ts';

/** One date of a fixed place; `corners` begin where the patches begin. */
export interface PlaceOnDate {
  readonly photo: PhotoSummary;
  readonly corners: PlotFrame['corners'];
}

export type PlaceChange =
  | { readonly state: 'done'; readonly change: PatchChange }
  | { readonly state: 'waiting' }
  | { readonly state: 'other-classes' };

/** Compares dates of one place patch by patch, away from the page's own thread. */
export class FixedPlaces {
  readonly #session: Session;
  readonly #worker = startPatchWorker();

  constructor(session: Session) {
    this.#session = session;
  }

  async compare(before: PlaceOnDate, after: PlaceOnDate, grid: PatchGrid): Promise<PlaceChange> {
    const classesOf = ({ photo }: PlaceOnDate) => photo.figure?.settings.classes.map(({ id }) => id).join();
    if (classesOf(before) !== classesOf(after)) return { state: 'other-classes' };
    const [p, q] = [await this.#patches(before, grid), await this.#patches(after, grid)];
    return p && q ? { state: 'done', change: patchChange(p, q) } : { state: 'waiting' };
  }

  stop(): void {
    this.#worker.terminate();
  }

  async #patches({ photo, corners }: PlaceOnDate, grid: PatchGrid): Promise<PatchCover | null> {
    const settings = photo.figure?.settings;
    const frame = settings?.frame;
    if (!settings || !frame || photo.stale || photo.work) return null;
    const mask = await this.#session.mask(photo.id);
    if (!mask) return null;
    const copy = { ...mask, labels: mask.labels.slice() };
    return this.#worker.patchCover({ mask: copy, settings: { ...settings, frame }, corners, grid });
  }
}
