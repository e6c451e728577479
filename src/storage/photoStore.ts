import { type NewPhoto, putNewPhoto } from './newPhotoRecords.ts';
import type { AutomaticMaskRecord, PhotoRecord, ThumbnailRecord } from './records/photoRecords.ts';
import type { Written } from './storageProblem.ts';
import type { CheckedTables, StoreContext } from './storeContext.ts';
import type { RecordOf, TableName } from './tables.ts';

export type AddPhotoResult =
  | { readonly state: 'added'; readonly photo: PhotoRecord }
  /** The same bytes are here already; nothing was stored. */
  | { readonly state: 'duplicate'; readonly photo: PhotoRecord };

/** What a person may change about a photo. */
export interface PhotoChange {
  readonly plot?: string | null;
  readonly ratingDate?: string | null;
  /** Place of the frame in the plot, 1.. */
  readonly place?: number | null;
  /** Who says so; given alone it confirms what is there. @default 'person' */
  readonly namedBy?: 'file-name' | 'walking-order' | 'label' | 'person';
}

/** What says where a photo belongs. */
const PLACE_FIELDS: ReadonlySet<string> = new Set(['plot', 'place', 'ratingDate']);

/** Tables whose records belong to one photo, by its id. */
const TABLES_OF_A_PHOTO = [
  'photoBytes',
  'thumbnails',
  'photoSettings',
  'automaticMasks',
  'corrections',
  'photoChecks',
  'reviews',
  'jobs',
] as const;
/** Tables that hold several records a photo. */
const TABLES_OF_MANY = ['strokes', 'figures', 'pointSets'] as const;

/** The photos and all that hangs on them. Bytes are read one photo at a time and never take part in a list. */
export class PhotoStore {
  readonly #context: StoreContext;

  constructor(context: StoreContext) {
    this.#context = context;
  }

  /**
   * Stores a photo and asks for it to be measured, in one transaction; the same bytes are stored once.
   *
   * @param batch instant that photos added in one go share: they are one batch, even if measuring them is quicker
   *   than adding them
   */
  add(photo: NewPhoto, batch?: string): Promise<Written<AddPhotoResult>> {
    return this.#context.write(
      ['photos', 'photoBytes', 'photoSettings', 'jobs'],
      async (tables): Promise<AddPhotoResult> => {
        const there = await tables.photos.first('sha256', photo.sha256);
        if (there) return { state: 'duplicate', photo: there };
        const record = await putNewPhoto(tables, photo, this.#context, batch);
        return { state: 'added', photo: record };
      },
      ({ state, photo: { id } }) => ({ photoIds: state === 'added' ? [id] : [] }),
    );
  }

  /** The photo file, byte for byte; null where the store no longer has it. */
  async bytes(id: string): Promise<ArrayBuffer | null> {
    const record = await this.#one('photoBytes', id);
    return record?.bytes ?? null;
  }

  async thumbnail(id: string): Promise<ThumbnailRecord | null> {
    return (await this.#one('thumbnails', id)) ?? null;
  }

  /** What is read before a photo is measured, at once: its bytes, or null where the store no longer has them. */
  toMeasure(id: string): Promise<{ readonly bytes: ArrayBuffer | null; readonly hasThumbnail: boolean }> {
    return this.#context.read(['photoBytes', 'thumbnails'], async ({ photoBytes, thumbnails }) => ({
      bytes: (await photoBytes.get(id))?.bytes ?? null,
      hasThumbnail: (await thumbnails.get(id)) !== undefined,
    }));
  }

  saveThumbnail(thumbnail: ThumbnailRecord): Promise<Written<boolean>> {
    return this.#saveBeside('thumbnails', thumbnail.photoId, (tables) => tables.thumbnails.put(thumbnail));
  }

  /** The cached mask; null where there is none, or where it belongs to another figure than the current one. */
  async automaticMask(id: string): Promise<AutomaticMaskRecord | null> {
    return this.#context.read(['automaticMasks', 'figures'], async ({ automaticMasks, figures }) => {
      const mask = await automaticMasks.get(id);
      const figure = mask && (await figures.get(mask.figureId));
      return mask && figure?.current === 1 ? mask : null;
    });
  }

  saveAutomaticMask(mask: AutomaticMaskRecord): Promise<Written<boolean>> {
    return this.#saveBeside('automaticMasks', mask.photoId, (tables) => tables.automaticMasks.put(mask));
  }

  /** What the audit says of the places of photos and of photos removed. Reads the whole audit. */
  changes(): Promise<RecordOf<'auditEntries'>[]> {
    return this.#context.read(['auditEntries'], async ({ auditEntries }) =>
      (await auditEntries.all()).filter(
        ({ subject, field }) => subject === 'photos' && (field === null || PLACE_FIELDS.has(field)),
      ),
    );
  }

  /** Keeps the plot labels that were read in a photo. @returns false where it is not there any more */
  keepLabel(id: string, texts: readonly string[]): Promise<Written<boolean>> {
    return this.#context.write(
      ['photos'],
      async ({ photos }) => {
        const photo = await photos.get(id);
        if (!photo) return false;
        await photos.put({ ...photo, label: { texts: [...texts], readAt: this.#context.now() } });
        return true;
      },
      (done) => ({ photoIds: done ? [id] : [] }),
    );
  }

  /** Changes plot, place and rating date; old and new value go to the audit. @returns whether anything was changed */
  change(
    id: string,
    change: PhotoChange,
    by: string | null,
    reason: string | null = null,
  ): Promise<Written<boolean>> {
    return this.#context.write(
      ['photos', 'auditEntries'],
      async ({ photos, auditEntries }) => {
        const photo = await photos.get(id);
        if (!photo) return false;
        const fields = (['plot', 'place', 'ratingDate', 'namedBy'] as const).filter(
          (field) => change[field] !== undefined && change[field] !== photo[field],
        );
        if (fields.length === 0) return false;
        for (const field of fields) {
          await auditEntries.put({
            id: this.#context.newId(),
            at: this.#context.now(),
            by,
            subject: 'photos',
            subjectId: id,
            field,
            before: photo[field],
            after: change[field],
            reason,
          });
        }
        const { plot = photo.plot, place = photo.place, ratingDate = photo.ratingDate } = change;
        const { namedBy = 'person' } = change;
        // with a plot it counts again
        const { replaced, ...rest } = photo;
        const kept = plot === null && replaced ? { replaced } : {};
        await photos.put({ ...rest, ...kept, plot, place, ratingDate, namedBy });
        return true;
      },
      (done) => ({ photoIds: done ? [id] : [] }),
    );
  }

  /** Removes photos with everything that hangs on them; that and what they were stays in the audit. */
  remove(ids: readonly string[], by: string | null): Promise<Written<void>> {
    return this.#context.write(
      ['photos', ...TABLES_OF_A_PHOTO, ...TABLES_OF_MANY, 'correctionPatches', 'calls', 'auditEntries'],
      async (tables) => {
        for (const id of ids) {
          const photo = await tables.photos.get(id);
          if (!photo) continue;
          await tables.auditEntries.put({
            id: this.#context.newId(),
            at: this.#context.now(),
            by,
            subject: 'photos',
            subjectId: id,
            field: null,
            before: photo,
            after: null,
            reason: null,
          });
          for (const { sequence } of await tables.correctionPatches.where('photoId', id)) {
            await tables.correctionPatches.delete([id, sequence]);
          }
          for (const set of await tables.pointSets.where('photoId', id)) {
            for (const call of await tables.calls.where('pointSetId', set.id))
              await tables.calls.delete(call.id);
          }
          for (const name of TABLES_OF_MANY) {
            for (const record of await tables[name].where('photoId', id))
              await tables[name].delete(record.id);
          }
          for (const name of TABLES_OF_A_PHOTO) await tables[name].delete(id);
          await tables.photos.delete(id);
        }
      },
      () => ({ photoIds: ids }),
    );
  }

  #one<Name extends TableName>(name: Name, id: string) {
    return this.#context.read([name], (tables) => tables[name].get(id));
  }

  /** Writes a record that belongs to a photo, unless the photo was removed meanwhile. */
  #saveBeside<Name extends TableName>(
    name: Name,
    photoId: string,
    put: (tables: CheckedTables<Name | 'photos'>) => Promise<void>,
  ): Promise<Written<boolean>> {
    return this.#context.write(
      [name, 'photos'],
      async (tables) => {
        if (!(await (tables as CheckedTables<'photos'>).photos.get(photoId))) return false;
        await put(tables);
        return true;
      },
      () => ({}),
    );
  }
}
