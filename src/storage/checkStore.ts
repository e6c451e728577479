import type { PhotoCheck, SettledArea } from '../core/quality/checkPhoto.ts';
import type { PhotoCheckRecord } from './records/photoRecords.ts';
import type { Written } from './storageProblem.ts';
import type { CheckedTables, StoreContext } from './storeContext.ts';

/** What was found in a photo before it was measured, and what it is then measured in. */
export interface NewCheck {
  readonly check: PhotoCheck;
  readonly area: SettledArea;
  readonly softwareVersion: string;
}

/** What photos show of themselves: frame, grey card, fitness for measuring. */
export class CheckStore {
  readonly #context: StoreContext;

  constructor(context: StoreContext) {
    this.#context = context;
  }

  /** Null where the photo was not looked over yet. */
  async of(photoId: string): Promise<PhotoCheck | null> {
    const record = await this.#context.read(['photoChecks'], ({ photoChecks }) => photoChecks.get(photoId));
    return record ? checkOf(record) : null;
  }

  /**
   * Keeps what was found, and a frame or card that is used as the finder's: proposed until a person confirms it.
   * What a person or a file settled is never overwritten.
   *
   * @returns false where the claim no longer holds: then it was another state of the photo that was looked over
   */
  keep(photoId: string, claim: string, found: NewCheck): Promise<Written<boolean>> {
    return this.#context.write(
      ['jobs', 'photoChecks', 'photoSettings'],
      async ({ jobs, ...tables }) => {
        const job = await jobs.get(photoId);
        if (job?.state !== 'running' || job.claim !== claim) return false;
        await putCheck(tables, photoId, found, this.#context.now());
        return true;
      },
      (kept) => ({ photoIds: kept ? [photoId] : [] }),
    );
  }
}

/** Part of a larger transaction: as `CheckStore.keep`, for a claim that holds. */
export async function putCheck(
  { photoChecks, photoSettings }: CheckedTables<'photoChecks' | 'photoSettings'>,
  photoId: string,
  { check, area, softwareVersion }: NewCheck,
  now: string,
): Promise<void> {
  const before = await photoChecks.get(photoId);
  await photoChecks.put({
    photoId,
    softwareVersion,
    checkedAt: now,
    // where nobody looked again, what was seen before still tells where frame and card came from
    frame: plain(check.frame) ?? before?.frame ?? null,
    greyCard: plain(check.greyCard) ?? before?.greyCard ?? null,
    balance: plain(check.balance),
    quality: { ...check.quality },
  });
  const stored = await photoSettings.get(photoId);
  const frameFound = area.frame !== null && !stored?.frame && stored?.frameBy === undefined;
  const cardFound = area.neutral !== null && !stored?.neutral && stored?.neutralBy === undefined;
  if (!frameFound && !cardFound) return;
  await photoSettings.put({
    ...stored,
    photoId,
    frame: area.frame,
    ignored: area.ignored.map((polygon) => [...polygon]),
    neutral: area.neutral && [...area.neutral],
    ...(frameFound && { frameBy: 'finder' as const }),
    ...(cardFound && { neutralBy: 'finder' as const }),
    changedAt: now,
  });
}

const plain = (finding: object | null) => finding && { ...finding };

/** The findings as their finders gave them: a cache of this program's own making, made again when it changes. */
export const checkOf = ({ frame, greyCard, balance, quality }: PhotoCheckRecord): PhotoCheck =>
  ({ frame, greyCard, balance, quality }) as unknown as PhotoCheck;
