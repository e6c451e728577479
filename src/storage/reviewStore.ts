import type { ReviewRecord, SignOffRecord } from './records/reviewRecords.ts';
import type { Written } from './storageProblem.ts';
import type { StoreContext } from './storeContext.ts';

/** What a person made of a photo. */
export type Verdict = ReviewRecord['verdict'];

export interface NewSignOff {
  readonly trialId: string | null;
  readonly ratingDate: string;
  readonly sha256: string;
  readonly photoIds: readonly string[];
  /** How many of them somebody had looked at. */
  readonly lookedAt: number;
  readonly by: string;
  /** Why an earlier sign-off of the date is amended; null for the first. */
  readonly reason: string | null;
}

/** Who looked at which mask, and rating dates that were signed off. */
export class ReviewStore {
  readonly #context: StoreContext;

  constructor(context: StoreContext) {
    this.#context = context;
  }

  async all(): Promise<ReadonlyMap<string, ReviewRecord>> {
    const reviews = await this.#context.read(['reviews'], (tables) => tables.reviews.all());
    return new Map(reviews.map((review) => [review.photoId, review]));
  }

  /** Keeps a verdict; the one before goes to the audit. @returns false where the photo is gone */
  judge(photoId: string, verdict: Verdict, figureId: string, by: string | null): Promise<Written<boolean>> {
    return this.#context.write(
      ['photos', 'reviews', 'auditEntries'],
      async ({ photos, reviews, auditEntries }) => {
        if (!(await photos.get(photoId))) return false;
        const at = this.#context.now();
        const before = await reviews.get(photoId);
        if (before) {
          await auditEntries.put({
            id: this.#context.newId(),
            at,
            by,
            subject: 'reviews',
            subjectId: photoId,
            field: 'verdict',
            before,
            after: verdict,
            reason: null,
          });
        }
        await reviews.put({ photoId, verdict, figureId, by, at });
        return true;
      },
      (done) => ({ correctedIds: done ? [photoId] : [] }),
    );
  }

  /** Takes a verdict back; it stays in the audit. */
  withdraw(photoId: string, by: string | null): Promise<Written<boolean>> {
    return this.#context.write(
      ['reviews', 'auditEntries'],
      async ({ reviews, auditEntries }) => {
        const before = await reviews.get(photoId);
        if (!before) return false;
        await auditEntries.put({
          id: this.#context.newId(),
          at: this.#context.now(),
          by,
          subject: 'reviews',
          subjectId: photoId,
          field: 'verdict',
          before,
          after: null,
          reason: null,
        });
        await reviews.delete(photoId);
        return true;
      },
      (done) => ({ correctedIds: done ? [photoId] : [] }),
    );
  }

  /** Sign-offs of a rating date, the newest last. */
  async signOffs(ratingDate: string): Promise<readonly SignOffRecord[]> {
    const found = await this.#context.read(['signOffs'], ({ signOffs }) =>
      signOffs.where('ratingDate', ratingDate),
    );
    return found.sort((a, b) => (a.at < b.at ? -1 : 1));
  }

  /**
   * Signs a rating date off; after an earlier sign-off it is an amendment of that one.
   *
   * @returns null where the date is signed off already and no reason is given
   */
  signOff({ photoIds, reason, ...sealed }: NewSignOff): Promise<Written<SignOffRecord | null>> {
    return this.#context.write(
      ['signOffs'],
      async ({ signOffs }) => {
        const before = (await signOffs.where('ratingDate', sealed.ratingDate)).sort((a, b) =>
          a.at < b.at ? -1 : 1,
        );
        const last = before.at(-1);
        if (last && !reason) return null;
        const record: SignOffRecord = {
          ...sealed,
          id: this.#context.newId(),
          photoIds: [...photoIds],
          at: this.#context.now(),
          amends: last?.id ?? null,
          reason: last ? reason : null,
        };
        await signOffs.put(record);
        return record;
      },
      (record) => ({ correctedIds: record ? record.photoIds : [] }),
    );
  }
}
