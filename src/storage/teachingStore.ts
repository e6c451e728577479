import type { MeasureSettings, NamedModel } from '../core/cover/measurePhoto.ts';
import { putWaiting } from './jobQueue.ts';
import { settledMeasuring } from './measureSettingsOf.ts';
import type { ModelRecord, StrokeRecord } from './records/correctionRecords.ts';
import type { Written } from './storageProblem.ts';
import type { StoreContext } from './storeContext.ts';

/** A model to be used for the photos of a rating date. */
export interface ModelForDate {
  readonly taught: NamedModel;
  /** How strokes held back were called by the others; null or left out where none could be held back. */
  readonly agreement?: { readonly cells: number; readonly agreement: number } | null;
  readonly ratingDate: string | null;
  readonly trialId: string | null;
  readonly photoIds: readonly string[];
}

/** What was painted to teach, and the models it taught. Every gesture is one transaction. */
export class TeachingStore {
  readonly #context: StoreContext;

  constructor(context: StoreContext) {
    this.#context = context;
  }

  /** The strokes on photos, in the order they were painted; photos without any have an empty list. */
  strokes(photoIds: readonly string[]): Promise<ReadonlyMap<string, readonly StrokeRecord[]>> {
    return this.#context.read(['strokes'], async ({ strokes }) => {
      const found = new Map<string, readonly StrokeRecord[]>();
      for (const id of photoIds) found.set(id, (await strokes.where('photoId', id)).sort(byTimePainted));
      return found;
    });
  }

  /** All models that were taken for a rating date. */
  models(): Promise<readonly ModelRecord[]> {
    return this.#context.read(['models'], ({ models }) => models.all());
  }

  /** What a photo is measured with; null where it is not there. */
  photo(id: string): Promise<{ photoSha256: string; settings: MeasureSettings } | null> {
    return this.#context.read(['photos', 'photoSettings', 'models', 'trials'], async (tables) => {
      const photo = await tables.photos.get(id);
      return photo
        ? { photoSha256: photo.sha256, settings: (await settledMeasuring(photo, tables)).settings }
        : null;
    });
  }

  /**
   * Takes strokes away and puts others there, in one go: painting, erasing, undo and redo are all this. Strokes on a
   * photo that was removed meanwhile are not kept.
   */
  replaceStrokes(removed: readonly StrokeRecord[], added: readonly StrokeRecord[]): Promise<Written<void>> {
    return this.#context.write(
      ['strokes', 'photos'],
      async ({ strokes, photos }) => {
        for (const { id } of removed) await strokes.delete(id);
        for (const stroke of added) if (await photos.get(stroke.photoId)) await strokes.put(stroke);
      },
      () => ({ photoIds: [...new Set([...removed, ...added].map(({ photoId }) => photoId))] }),
    );
  }

  /** Keeps a model, has photos use it, and asks for them to be measured: all of it or nothing. */
  adoptModel({ taught, agreement, ratingDate, trialId, photoIds }: ModelForDate): Promise<Written<void>> {
    return this.#context.write(
      ['models', 'photos', 'photoSettings', 'jobs'],
      async ({ models, photos, photoSettings, jobs }) => {
        const now = this.#context.now();
        const { id, model } = taught;
        await models.put({
          id,
          trialId,
          ratingDate,
          content: { ...model },
          taughtAt: now,
          by: null,
          ...(agreement && { agreement: { cells: agreement.cells, share: agreement.agreement } }),
        });
        const there: string[] = [];
        for (const photoId of photoIds) {
          if (!(await photos.get(photoId))) continue;
          const before = await photoSettings.get(photoId);
          await photoSettings.put({
            frame: null,
            ignored: [],
            neutral: null,
            ...before,
            photoId,
            modelId: id,
            changedAt: now,
          });
          there.push(photoId);
        }
        await putWaiting(jobs, there, now);
      },
      () => ({ photoIds }),
    );
  }

  /** Has photos use the start model again. */
  adoptStartModel(photoIds: readonly string[]): Promise<Written<void>> {
    return this.#context.write(
      ['photos', 'photoSettings', 'jobs'],
      async ({ photos, photoSettings, jobs }) => {
        const now = this.#context.now();
        const changed: string[] = [];
        for (const photoId of photoIds) {
          const before = await photoSettings.get(photoId);
          if (!before?.modelId || !(await photos.get(photoId))) continue;
          const { modelId: _modelId, ...rest } = before;
          await photoSettings.put({ ...rest, changedAt: now });
          changed.push(photoId);
        }
        await putWaiting(jobs, changed, now);
      },
      () => ({ photoIds }),
    );
  }
}

const byTimePainted = (a: StrokeRecord, b: StrokeRecord) => (a.at < b.at ? -1 : Number(a.at > b.at));
