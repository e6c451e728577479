import { type ReviewPlace, reviewOrder } from '../../core/mask/reviewOrder.ts';
import { type SignedPhoto, signOffBytes } from '../../core/mask/signOffBytes.ts';
import type { LabelMask } from '../../core/raster/labelMask.ts';
import type { ReviewRecord, SignOffRecord } from '../../storage/records/reviewRecords.ts';
import type { Verdict } from '../../storage/reviewStore.ts';
import { doubtsOf } from './doubtsOf.ts';
import { maskThatCounts } from './maskThatCounts.ts';
import { ObservableValue } from './observable.ts';
import { readCorrections } from './readCorrections.ts';
import type { Figure, PhotoSummary } from './session.ts';
import type { OpenPart, PartContext } from './sessionPart.ts';
import { sha256Of } from './sha256Of.ts';

/** A photo of the date with what people made of it. */
export interface ReviewedPhoto {
  readonly photo: PhotoSummary;
  readonly place: ReviewPlace;
  /** The figure that counts: corrected where there is one. */
  readonly figure: Figure;
  readonly review: ReviewRecord | null;
  /** The figure has changed since somebody looked. */
  readonly outdated: boolean;
}

export interface ReviewingState {
  readonly ready: boolean;
  /** The least trusted first. */
  readonly queue: readonly ReviewedPhoto[];
  /** Photos of the date that have no figure now. */
  readonly unmeasured: number;
  readonly signOffs: readonly SignOffRecord[];
  /**
   * What the date's photos, models, settings and corrections hash to now; null while that is worked out, or where it
   * cannot be.
   */
  readonly seal: string | null;
  /** Names of photos whose corrections cannot be read: a date with one is not signed off. */
  readonly unreadable: readonly string[];
}

/** Whether a verdict stands for the figure there is now. */
export const isLookedAt = ({ review, outdated }: ReviewedPhoto): boolean =>
  review !== null && review.verdict !== 'skipped' && !outdated;

/** The part that reviews the photos of a rating date. */
export const openReviewing =
  (ratingDate: string): OpenPart<Reviewing> =>
  async (context) => {
    const reviewing = new Reviewing(ratingDate, context);
    context.onClose(() => reviewing.stop());
    await figuresKept(ratingDate, context);
    await reviewing.load();
    return reviewing;
  };

/** How long a corrected figure is waited for before the review goes on without it. */
const LONGEST_WAIT_MS = 2_000;
const LOOK_AGAIN_MS = 50;

/**
 * A photo that was just corrected has its figure a moment after it was left. The review waits for it, so that the photo shown
 * first, and what is accepted of it, is the one that counts.
 */
async function figuresKept(ratingDate: string, { store, photos }: PartContext): Promise<void> {
  const ofDate = new Set(
    photos.get().flatMap((photo) => (photo.ratingDate === ratingDate ? [photo.id] : [])),
  );
  const pause = () => new Promise((resolve) => setTimeout(resolve, LOOK_AGAIN_MS));
  const awaited = (await store.corrections.figuresDue()).filter((id) => ofDate.has(id));
  for (let waitedMs = 0; awaited.length > 0 && waitedMs < LONGEST_WAIT_MS; waitedMs += LOOK_AGAIN_MS) {
    await pause();
    const due = new Set(await store.corrections.figuresDue());
    // kept in the store, and in the list that the review is made from
    const shown = photos
      .get()
      .every(({ id, figures }) => !awaited.includes(id) || figures.corrected !== undefined);
    if (awaited.every((id) => !due.has(id)) && shown) return;
  }
}

/** Looking through the masks of a rating date, and signing it off. */
export class Reviewing {
  readonly state = new ObservableValue<ReviewingState>({
    ready: false,
    queue: [],
    unmeasured: 0,
    signOffs: [],
    seal: null,
    unreadable: [],
  });
  readonly ratingDate: string;
  /** Who reviews, by a typed name. */
  by = '';
  readonly #context: Pick<PartContext, 'store' | 'photos' | 'settle' | 'mask' | 'openTrial'>;
  readonly #endings: (() => void)[] = [];
  /** Counts loadings, so that a late one is known to be late. */
  #generation = 0;
  #stopped = false;

  constructor(
    ratingDate: string,
    context: Pick<PartContext, 'store' | 'photos' | 'settle' | 'mask' | 'openTrial'>,
  ) {
    this.ratingDate = ratingDate;
    this.#context = context;
    const again = () => void this.load();
    this.#endings.push(context.photos.subscribe(again), context.store.observeCorrections(again));
  }

  async load(): Promise<void> {
    this.#generation += 1;
    const generation = this.#generation;
    const { store, photos } = this.#context;
    const reviews = await store.reviews.all();
    const signOffs = await store.reviews.signOffs(this.ratingDate);
    if (this.#isLate(generation)) return;
    const ofDate = photos.get().filter(({ ratingDate }) => ratingDate === this.ratingDate);
    const measured = new Map(
      ofDate.flatMap((photo) => {
        const figure = photo.figures.corrected ?? photo.figure;
        return figure && photo.work === null ? [[photo.id, { photo, figure }] as const] : [];
      }),
    );
    const candidates = [...measured.values()].map(({ photo }) => ({
      id: photo.id,
      ...doubtsOf(photo),
      coverFraction: photo.figure!.cover.map(({ coverFraction }) => coverFraction),
    }));
    const queue = reviewOrder(candidates).map((place): ReviewedPhoto => {
      const { photo, figure } = measured.get(place.id)!;
      const review = reviews.get(place.id) ?? null;
      return { photo, place, figure, review, outdated: review !== null && review.figureId !== figure.id };
    });
    this.state.set({
      ...this.state.get(),
      ready: true,
      queue,
      unmeasured: ofDate.length - measured.size,
      signOffs,
    });
    const sealed = await this.#seal(queue);
    if (!this.#isLate(generation)) this.state.set({ ...this.state.get(), ...sealed });
  }

  /** The mask that counts for a photo; null where there is none now. */
  async mask(photoId: string): Promise<LabelMask | null> {
    return (await maskThatCounts(this.#context, photoId))?.mask ?? null;
  }

  /** Keeps what was made of a photo; accepting one that was corrected says so. */
  async judge({ photo, figure }: ReviewedPhoto, verdict: 'accepted' | 'skipped'): Promise<void> {
    const { store, settle } = this.#context;
    const said: Verdict = verdict === 'accepted' && figure.method === 'corrected' ? 'corrected' : verdict;
    settle(await store.reviews.judge(photo.id, said, figure.id, this.by || null));
    await this.load();
  }

  /** Takes a verdict back. */
  async withdraw({ photo }: ReviewedPhoto): Promise<void> {
    const { store, settle } = this.#context;
    settle(await store.reviews.withdraw(photo.id, this.by || null));
    await this.load();
  }

  /** Notes that the names of treatments were shown. */
  async noteTreatmentsShown(trialId: string): Promise<void> {
    const { store, settle } = this.#context;
    settle(await store.corrections.noteTreatmentsShown(trialId, this.ratingDate, this.by));
  }

  /** Seals the date as it is now. @param reason why an earlier sign-off is amended */
  async signOff(reason: string | null): Promise<void> {
    const { store, settle, openTrial } = this.#context;
    const { queue } = this.state.get();
    const { seal: sha256 } = await this.#seal(queue);
    if (sha256 === null) return;
    const trial = (await openTrial()).trial.get();
    settle(
      await store.reviews.signOff({
        trialId: trial.state === 'open' ? trial.id : null,
        ratingDate: this.ratingDate,
        sha256,
        photoIds: queue.map(({ photo }) => photo.id),
        lookedAt: queue.filter(isLookedAt).length,
        by: this.by,
        reason,
      }),
    );
    await this.load();
  }

  stop(): void {
    this.#stopped = true;
    for (const end of this.#endings) end();
  }

  #isLate(generation: number): boolean {
    return generation !== this.#generation || this.#stopped;
  }

  async #seal(queue: readonly ReviewedPhoto[]): Promise<Pick<ReviewingState, 'seal' | 'unreadable'>> {
    const signed: SignedPhoto[] = [];
    const unreadable: string[] = [];
    for (const { photo } of queue) {
      const { id, figure, widthPx, heightPx } = photo;
      const { photoSha256, modelId, settings } = figure!;
      const size = { widthPx: widthPx!, heightPx: heightPx! };
      const classIds = settings.classes.map((one) => one.id);
      const read = readCorrections(await this.#context.store.corrections.layer(id), size, classIds);
      if (read.ok) signed.push({ photoSha256, modelId, settings: { ...settings }, corrections: read.layer });
      else unreadable.push(photo.name);
    }
    return { seal: unreadable.length > 0 ? null : await sha256Of(signOffBytes(signed)), unreadable };
  }
}
