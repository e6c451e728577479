import type { NewPhoto } from './newPhotoRecords.ts';
import { putNewPhoto } from './newPhotoRecords.ts';
import type { SkippedPlaceRecord } from './records/fieldRecords.ts';
import type { PhotoRecord } from './records/photoRecords.ts';
import type { Written } from './storageProblem.ts';
import type { CheckedTables, StoreContext } from './storeContext.ts';

/** A place of the frame on a rating date. */
export interface FieldSpot {
  readonly plot: string;
  /** Null where plots have one place only. */
  readonly place: number | null;
  readonly ratingDate: string;
}

/** How far a person has come on a rating date with this device. */
export interface FieldProgress {
  readonly plot: string;
  /** 1.. */
  readonly place: number;
  /** The place whose photo the camera was opened for and that has not arrived. */
  readonly awaited: { readonly plot: string; readonly place: number; readonly since: string } | null;
  /** Applications whose re-entry time had not passed or was not known, and whose warning was acknowledged. */
  readonly acknowledged: readonly string[];
  readonly changedAt: string;
}

export interface OpenFieldDay extends FieldProgress {
  readonly trialId: string;
  readonly ratingDate: string;
}

export type TakePhotoResult =
  | { readonly state: 'added'; readonly photoId: string; readonly replaced: readonly string[] }
  /** The same bytes are here already; nothing was stored, and the photo is still awaited. */
  | {
      readonly state: 'same-photo';
      readonly name: string;
      readonly plot: string | null;
      readonly ratingDate: string | null;
    };

const PROGRESS = 'field-progress';
const keyOf = (trialId: string, ratingDate: string) => `${trialId} ${ratingDate}`;

type Settings = CheckedTables<'settings'>['settings'];
type ProgressByDay = Readonly<Record<string, OpenFieldDay>>;

/** What is done plot by plot with a phone: where the person stands, photos at their places, places left out. */
export class FieldStore {
  readonly #context: StoreContext;

  constructor(context: StoreContext) {
    this.#context = context;
  }

  /** Null where the day was not begun on this device. */
  async progress(trialId: string, ratingDate: string): Promise<FieldProgress | null> {
    const all = await this.#context.read(['settings'], ({ settings }) => progressIn(settings));
    return all[keyOf(trialId, ratingDate)] ?? null;
  }

  /** Days begun on this device, the one worked on last first. */
  async days(trialId: string): Promise<readonly OpenFieldDay[]> {
    const all = await this.#context.read(['settings'], ({ settings }) => progressIn(settings));
    const ofTrial = Object.values(all).filter((day) => day.trialId === trialId);
    return ofTrial.sort((a, b) => (a.changedAt < b.changedAt ? 1 : -1));
  }

  /** Notes where the person stands; a photo that is awaited stays so. */
  goTo(trialId: string, { plot, place, ratingDate }: FieldSpot): Promise<Written<FieldProgress>> {
    return this.#change(trialId, ratingDate, (before) => ({ ...before, plot, place: place ?? 1 }));
  }

  /** Notes that the camera is about to be opened, or with null that it was closed without a photo. */
  awaitPhoto(
    trialId: string,
    ratingDate: string,
    at: { readonly plot: string; readonly place: number } | null,
  ): Promise<Written<FieldProgress>> {
    return this.#change(trialId, ratingDate, (before, since) => ({
      ...before,
      ...at,
      awaited: at && { ...at, since },
    }));
  }

  /** Keeps that a person was told of a re-entry time and goes on all the same; it is in the audit. */
  acknowledge(
    trialId: string,
    ratingDate: string,
    application: string,
    { words, by }: { readonly words: string; readonly by: string },
  ): Promise<Written<FieldProgress>> {
    return this.#context.write(
      ['settings', 'auditEntries'],
      async ({ settings, auditEntries }) => {
        const at = this.#context.now();
        await auditEntries.put({
          id: this.#context.newId(),
          at,
          by,
          subject: 'trials',
          subjectId: trialId,
          field: `applications[${application}].reEntry`,
          before: null,
          after: words,
          reason: null,
        });
        return putProgress(settings, trialId, ratingDate, at, (before) => ({
          ...before,
          acknowledged: [...new Set([...before.acknowledged, application])],
        }));
      },
      () => ({ settings: [PROGRESS], trialIds: [trialId] }),
    );
  }

  /**
   * Stores a photo at its place, and nothing awaits it any more: one transaction. The photo that was there before stays,
   * marked as replaced, and belongs to no plot.
   *
   * @param reason what the audit says of a replaced photo
   */
  take(
    trialId: string,
    spot: FieldSpot,
    photo: NewPhoto,
    { by, reason }: { readonly by: string | null; readonly reason: string },
  ): Promise<Written<TakePhotoResult>> {
    return this.#context.write(
      ['photos', 'photoBytes', 'photoSettings', 'jobs', 'settings', 'auditEntries'],
      async (tables): Promise<TakePhotoResult> => {
        const there = await tables.photos.first('sha256', photo.sha256);
        if (there) {
          const { plot, ratingDate } = there.replaced ?? there;
          return { state: 'same-photo', name: there.name, plot, ratingDate };
        }
        const at = this.#context.now();
        const replaced = await this.#replace(tables, spot, { by, reason, at });
        const record = await putNewPhoto(tables, { ...photo, ...spot, namedBy: 'person' }, this.#context);
        await putProgress(tables.settings, trialId, spot.ratingDate, at, (before) => ({
          ...before,
          plot: spot.plot,
          place: spot.place ?? 1,
          awaited: null,
        }));
        return { state: 'added', photoId: record.id, replaced };
      },
      (result) => ({
        photoIds: result.state === 'added' ? [result.photoId, ...result.replaced] : [],
        settings: [PROGRESS],
      }),
    );
  }

  /** Puts a replaced photo back at its place; the one that is there now is replaced by it. */
  restoreEarlier(
    photoId: string,
    { by, reason }: { readonly by: string | null; readonly reason: string },
  ): Promise<Written<readonly string[]>> {
    return this.#context.write(
      ['photos', 'auditEntries'],
      async (tables) => {
        const photo = await tables.photos.get(photoId);
        if (!photo?.replaced) return [];
        const at = this.#context.now();
        const { replaced: spot, ...rest } = photo;
        const changed = await this.#replace(tables, spot, { by, reason, at });
        const { plot, place, ratingDate } = spot;
        await this.#note(tables, photo, { plot, place, ratingDate }, { by, reason, at });
        await tables.photos.put({ ...rest, plot, place, ratingDate, namedBy: 'person' });
        return [photoId, ...changed];
      },
      (photoIds) => ({ photoIds }),
    );
  }

  skipped(trialId: string): Promise<SkippedPlaceRecord[]> {
    return this.#context.read(['skippedPlaces'], ({ skippedPlaces }) =>
      skippedPlaces.where('trialId', trialId),
    );
  }

  /** Keeps why a place is left out; another reason than before leaves the old one in the audit. */
  skip(skipped: Omit<SkippedPlaceRecord, 'at'>): Promise<Written<void>> {
    const { trialId, ratingDate, plot, place, by } = skipped;
    return this.#context.write(
      ['skippedPlaces', 'auditEntries'],
      async ({ skippedPlaces, auditEntries }) => {
        const at = this.#context.now();
        const before = await skippedPlaces.get([trialId, ratingDate, plot, place]);
        if (before && before.reason !== skipped.reason) {
          await auditEntries.put({
            id: this.#context.newId(),
            at,
            by,
            subject: 'trials',
            subjectId: trialId,
            field: `skippedPlaces[${plot} ${place} ${ratingDate}].reason`,
            before: before.reason,
            after: skipped.reason,
            reason: null,
          });
        }
        await skippedPlaces.put({ ...skipped, at });
      },
      () => ({ trialIds: [trialId] }),
    );
  }

  #change(
    trialId: string,
    ratingDate: string,
    edit: (before: FieldProgress, now: string) => FieldProgress,
  ): Promise<Written<FieldProgress>> {
    return this.#context.write(
      ['settings'],
      ({ settings }) => putProgress(settings, trialId, ratingDate, this.#context.now(), edit),
      () => ({ settings: [PROGRESS] }),
    );
  }

  /** Takes every photo of a place away from it. @returns their ids */
  async #replace(
    tables: CheckedTables<'photos' | 'auditEntries'>,
    { plot, place, ratingDate }: FieldSpot,
    signed: Signed,
  ): Promise<string[]> {
    const there = (await tables.photos.all()).filter(
      (one) => one.plot === plot && one.ratingDate === ratingDate && (one.place ?? 1) === (place ?? 1),
    );
    for (const photo of there) {
      await this.#note(tables, photo, { plot: null, place: null, ratingDate: null }, signed);
      await tables.photos.put({
        ...photo,
        plot: null,
        place: null,
        ratingDate: null,
        namedBy: 'person',
        replaced: { plot, place: photo.place, ratingDate, at: signed.at },
      });
    }
    return there.map(({ id }) => id);
  }

  async #note(
    { auditEntries }: CheckedTables<'auditEntries'>,
    photo: PhotoRecord,
    after: Pick<PhotoRecord, 'plot' | 'place' | 'ratingDate'>,
    { by, reason, at }: Signed,
  ): Promise<void> {
    for (const field of ['plot', 'place', 'ratingDate'] as const) {
      if (photo[field] === after[field]) continue;
      await auditEntries.put({
        id: this.#context.newId(),
        at,
        by,
        subject: 'photos',
        subjectId: photo.id,
        field,
        before: photo[field],
        after: after[field],
        reason,
      });
    }
  }
}

interface Signed {
  readonly by: string | null;
  readonly reason: string;
  readonly at: string;
}

async function progressIn(settings: Settings): Promise<ProgressByDay> {
  return ((await settings.get(PROGRESS))?.value ?? {}) as ProgressByDay;
}

async function putProgress(
  settings: Settings,
  trialId: string,
  ratingDate: string,
  now: string,
  edit: (before: FieldProgress, now: string) => FieldProgress,
): Promise<FieldProgress> {
  const all = await progressIn(settings);
  const key = keyOf(trialId, ratingDate);
  const before: FieldProgress = all[key] ?? {
    plot: '',
    place: 1,
    awaited: null,
    acknowledged: [],
    changedAt: now,
  };
  const day = { ...edit(before, now), trialId, ratingDate, changedAt: now };
  await settings.put({ name: PROGRESS, value: { ...all, [key]: day } });
  return day;
}
