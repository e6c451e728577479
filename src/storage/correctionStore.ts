import type { NewFigure } from './figureStore.ts';
import { putFigure } from './figureStore.ts';
import { sameMeasureSettings } from './measureSettingsOf.ts';
import type { CorrectionPatchRecord, CorrectionRecord } from './records/correctionRecords.ts';
import type { FigureRecord } from './records/photoRecords.ts';
import type { Written } from './storageProblem.ts';
import type { CheckedTable, StoreContext } from './storeContext.ts';

/** The corrections of a photo with every gesture that is done or can be done again, in their order. */
export interface StoredCorrections {
  /** Null before the first gesture. */
  readonly corrections: CorrectionRecord | null;
  readonly gestures: readonly CorrectionPatchRecord[];
}

/** The layer as it is after a change. */
export interface ChangedLayer {
  readonly photoId: string;
  /** The state that was changed; 0 before the first gesture. */
  readonly revision: number;
  readonly layer: ArrayBuffer;
  readonly classIds: readonly string[];
}

/** A gesture, and the gestures taken back before it, which can no longer be done again. */
export interface NewGesture
  extends ChangedLayer,
    Pick<CorrectionPatchRecord, 'sequence' | 'gesture' | 'patch' | 'by'> {
  readonly forgotten: readonly number[];
}

/** `stale`: another tab was first; `gone`: the photo or the gesture is no longer there. Then nothing was stored. */
export type ChangeOutcome =
  | { readonly state: 'kept'; readonly revision: number }
  | { readonly state: 'stale' }
  | { readonly state: 'gone' };

/** A figure of the corrections as they are at a revision; null where no correction is left. */
export interface CorrectedFigure {
  readonly photoId: string;
  readonly revision: number;
  readonly figure: NewFigure | null;
  readonly correctionsSha256: string;
  readonly by: string | null;
}

/**
 * What hands changed on masks: one layer a photo, and each gesture as a patch of it. Every gesture is one transaction,
 * and a change of a state that another tab has changed meanwhile is refused.
 */
export class CorrectionStore {
  readonly #context: StoreContext;

  constructor(context: StoreContext) {
    this.#context = context;
  }

  read(photoId: string): Promise<StoredCorrections> {
    return this.#context.read(['corrections', 'correctionPatches'], async (tables) => ({
      corrections: (await tables.corrections.get(photoId)) ?? null,
      gestures: (await tables.correctionPatches.where('photoId', photoId)).sort(
        (a, b) => a.sequence - b.sequence,
      ),
    }));
  }

  /** The layer alone; null where there is none. */
  async layer(photoId: string): Promise<CorrectionRecord | null> {
    const found = await this.#context.read(['corrections'], ({ corrections }) => corrections.get(photoId));
    return found ?? null;
  }

  /** Stores a gesture. */
  keep({ forgotten, sequence, gesture, patch, by, ...layer }: NewGesture): Promise<Written<ChangeOutcome>> {
    return this.#change(layer, async (patches) => {
      for (const one of forgotten) await patches.delete([layer.photoId, one]);
      const at = this.#context.now();
      const { photoId } = layer;
      await patches.put({ photoId, sequence, gesture, patch, undone: false, by, at, reason: null });
      return true;
    });
  }

  /** Stores that a gesture was taken back, or done again. */
  step(layer: ChangedLayer, sequence: number, undone: boolean): Promise<Written<ChangeOutcome>> {
    return this.#change(layer, async (patches) => {
      const gesture = await patches.get([layer.photoId, sequence]);
      if (!gesture || gesture.undone === undone) return false;
      await patches.put({ ...gesture, undone });
      return true;
    });
  }

  /** Says why gestures were made. */
  giveReason(photoId: string, sequences: readonly number[], reason: string): Promise<Written<void>> {
    return this.#context.write(
      ['correctionPatches'],
      async ({ correctionPatches }) => {
        for (const sequence of sequences) {
          const gesture = await correctionPatches.get([photoId, sequence]);
          if (gesture) await correctionPatches.put({ ...gesture, reason });
        }
      },
      () => ({ correctedIds: [photoId] }),
    );
  }

  /** Photos whose corrections have no figure yet, because the page was left or died before. */
  async figuresDue(): Promise<readonly string[]> {
    const due = await this.#context.read(['corrections'], ({ corrections }) =>
      corrections.where('figureDue', 1),
    );
    return due.map(({ photoId }) => photoId);
  }

  /**
   * Keeps the corrected figure of a photo, or withdraws it where no correction is left. One that says the same as the
   * current one is not kept again. The automatic figure stays beside it.
   *
   * @returns false where the corrections have changed since; that figure comes later
   */
  keepFigure(made: CorrectedFigure): Promise<Written<boolean>> {
    const { photoId, revision, figure, correctionsSha256, by } = made;
    return this.#context.write(
      ['photos', 'figures', 'corrections'],
      async ({ photos, figures, corrections }) => {
        const photo = await photos.get(photoId);
        const record = await corrections.get(photoId);
        if (!photo || record?.revision !== revision) return false;
        const { figureDue: _due, ...settled } = record;
        await corrections.put(settled);
        const before = (await figures.where('photoId', photoId)).find(
          ({ current, method }) => current === 1 && method === 'corrected',
        );
        if (!figure) {
          if (before) await figures.put({ ...before, current: 0 });
          return true;
        }
        if (before && saysTheSame(before, figure, correctionsSha256)) return true;
        await putFigure(figures, photo, figure, {
          id: this.#context.newId(),
          measuredAt: this.#context.now(),
          measuredBy: by,
          correctionsSha256,
        });
        return true;
      },
      (done) => ({ photoIds: done ? [photoId] : [] }),
    );
  }

  /** Notes that the names of treatments were shown to whoever corrects photos of a rating date. */
  noteTreatmentsShown(trialId: string, ratingDate: string | null, by: string): Promise<Written<void>> {
    return this.#context.write(
      ['auditEntries'],
      ({ auditEntries }) =>
        auditEntries.put({
          id: this.#context.newId(),
          at: this.#context.now(),
          by,
          subject: 'trials',
          subjectId: trialId,
          field: 'treatments shown while correcting',
          before: false,
          after: ratingDate ?? true,
          reason: null,
        }),
      () => ({ trialIds: [trialId] }),
    );
  }

  #change(
    { photoId, revision, layer, classIds }: ChangedLayer,
    work: (patches: CheckedTable<'correctionPatches'>) => Promise<boolean>,
  ): Promise<Written<ChangeOutcome>> {
    return this.#context.write(
      ['photos', 'corrections', 'correctionPatches'],
      async ({ photos, corrections, correctionPatches }): Promise<ChangeOutcome> => {
        if (!(await photos.get(photoId))) return { state: 'gone' };
        const before = await corrections.get(photoId);
        if ((before?.revision ?? 0) !== revision) return { state: 'stale' };
        if (!(await work(correctionPatches))) return { state: 'gone' };
        await corrections.put({
          photoId,
          layer,
          classIds: [...classIds],
          revision: revision + 1,
          figureDue: 1,
          changedAt: this.#context.now(),
        });
        return { state: 'kept', revision: revision + 1 };
      },
      ({ state }) => ({ correctedIds: state === 'kept' ? [photoId] : [] }),
    );
  }
}

const saysTheSame = (before: FigureRecord, figure: NewFigure, correctionsSha256: string): boolean =>
  before.correctionsSha256 === correctionsSha256 &&
  before.modelId === figure.modelId &&
  before.softwareVersion === figure.softwareVersion &&
  sameMeasureSettings(before.settings, figure.settings) &&
  figure.cover.every(
    ({ classId, pixels }, i) => before.cover[i]?.classId === classId && before.cover[i]?.pixels === pixels,
  );
