import { frameOf } from '../core/geometry/frameOf.ts';
import type { PlotFrame } from '../core/geometry/plotFrame.ts';
import type { PhotoPoint } from '../core/geometry/points.ts';
import type { FindRequest } from '../core/quality/checkPhoto.ts';
import { frameSizeOf } from './findRequestOf.ts';
import { putWaiting } from './jobQueue.ts';
import type { PhotoSettingsRecord } from './records/photoRecords.ts';
import type { Settings } from './settingStore.ts';
import type { Written } from './storageProblem.ts';
import type { CheckedTables, StoreContext } from './storeContext.ts';

/** Who settled something about a photo; `finder` is the program itself, and not yet confirmed. */
export type SettledBy = NonNullable<PhotoSettingsRecord['frameBy']>;

/** What of a photo is measured, and who said so; null where nobody has said anything. */
export interface PhotoArea {
  readonly frame: PlotFrame | null;
  readonly frameBy: SettledBy | null;
  readonly ignored: readonly (readonly PhotoPoint[])[];
  readonly neutral: readonly [left: number, top: number, width: number, height: number] | null;
  readonly neutralBy: SettledBy | null;
}

const FIELDS = ['frame', 'frameBy', 'ignored', 'neutral', 'neutralBy'] as const;
/** Fields that the figure hangs on; who settled them changes no figure. */
const MEASURED_FIELDS: readonly string[] = ['frame', 'ignored', 'neutral'];

/** The measured area of photos as people settle it: frame, ignored areas, grey card. Old and new value go to the audit. */
export class AreaStore {
  readonly #context: StoreContext;

  constructor(context: StoreContext) {
    this.#context = context;
  }

  of(photoId: string): Promise<PhotoArea> {
    return this.#context.read(['photoSettings'], async ({ photoSettings }) =>
      areaOf(await photoSettings.get(photoId)),
    );
  }

  /** The size that frames of a photo's date or trial have; null where nobody said. */
  frameSizeMm(photoId: string): Promise<FindRequest['frameSizeMm']> {
    return this.#context.read(['photos', 'settings', 'trials'], async ({ photos, ...others }) => {
      const photo = await photos.get(photoId);
      return photo ? frameSizeOf(photo.ratingDate, photo.trialId, others) : null;
    });
  }

  /**
   * Changes areas in one transaction, and asks for photos to be measured again whose figure hangs on the change.
   *
   * @param step from the area as it is now to the one wanted; the same object leaves it alone
   * @returns the photos that changed; those removed meanwhile are passed over
   */
  change(
    photoIds: readonly string[],
    step: (area: PhotoArea) => PhotoArea,
    by: string | null,
  ): Promise<Written<readonly string[]>> {
    return this.#context.write(
      ['photos', 'photoSettings', 'jobs', 'auditEntries'],
      (tables) => this.#change(tables, photoIds, step, by),
      (changed) => ({ photoIds: changed }),
    );
  }

  /** Gives all these frames one size, and those that will be found on this date as well. */
  sizeFrames(
    ratingDate: string,
    photoIds: readonly string[],
    sizeMm: readonly [number, number],
    by: string | null,
  ): Promise<Written<readonly string[]>> {
    return this.#context.write(
      ['photos', 'photoSettings', 'jobs', 'auditEntries', 'settings'],
      async (tables) => {
        const name = 'frame-sizes' satisfies keyof Settings;
        const sizes = (await tables.settings.get(name))?.value as Settings[typeof name] | undefined;
        await tables.settings.put({ name, value: { ...sizes, [ratingDate]: sizeMm } });
        const sized = (area: PhotoArea) =>
          area.frame ? { ...area, frame: frameOf(area.frame.corners, sizeMm) } : area;
        return this.#change(tables, photoIds, sized, by);
      },
      (changed) => ({ photoIds: changed }),
    );
  }

  async #change(
    {
      photos,
      photoSettings,
      jobs,
      auditEntries,
    }: CheckedTables<'photos' | 'photoSettings' | 'jobs' | 'auditEntries'>,
    photoIds: readonly string[],
    step: (area: PhotoArea) => PhotoArea,
    by: string | null,
  ): Promise<readonly string[]> {
    const at = this.#context.now();
    const changed: string[] = [];
    const toMeasure: string[] = [];
    for (const photoId of photoIds) {
      if (!(await photos.get(photoId))) continue;
      const stored = await photoSettings.get(photoId);
      const before = areaOf(stored);
      const after = step(before);
      const fields = FIELDS.filter((field) => JSON.stringify(before[field]) !== JSON.stringify(after[field]));
      if (fields.length === 0) continue;
      const { frameBy: _frameBy, neutralBy: _neutralBy, ...rest } = stored ?? {};
      await photoSettings.put({
        ...rest,
        photoId,
        frame: after.frame,
        ignored: after.ignored.map((polygon) => [...polygon]),
        neutral: after.neutral && [...after.neutral],
        ...(after.frameBy && { frameBy: after.frameBy }),
        ...(after.neutralBy && { neutralBy: after.neutralBy }),
        changedAt: at,
      });
      for (const field of fields) {
        const id = this.#context.newId();
        const values = { before: before[field], after: after[field] };
        const subject = { subject: 'photoSettings', subjectId: photoId, field };
        await auditEntries.put({ id, at, by, ...subject, ...values, reason: null });
      }
      changed.push(photoId);
      if (fields.some((field) => MEASURED_FIELDS.includes(field))) toMeasure.push(photoId);
    }
    await putWaiting(jobs, toMeasure, at);
    return changed;
  }
}

const areaOf = (stored: PhotoSettingsRecord | undefined): PhotoArea => ({
  frame: stored?.frame ?? null,
  frameBy: stored?.frameBy ?? null,
  ignored: stored?.ignored ?? [],
  neutral: stored?.neutral ?? null,
  neutralBy: stored?.neutralBy ?? null,
});
