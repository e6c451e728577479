import { median } from '../statistics/median.ts';

/** What speaks against a photo's figure before anybody looked at its mask. */
export interface Doubts {
  /** How many flags its figure carries; a photo that should be taken again counts as one. */
  readonly flags: number;
  /** How many reasons a taught model gave for doubting it. */
  readonly reasons: number;
}

/** What is known of a photo's figure before anybody looked at its mask. */
export interface ReviewCandidate extends Doubts {
  readonly id: string;
  /** By class, 0..1; photos of one rating date have the same classes. */
  readonly coverFraction: readonly number[];
}

/** A photo in its place of the queue. */
export interface ReviewPlace {
  readonly id: string;
  /** Whether a flag or reason put it there: such photos never stand for the others. */
  readonly isDoubted: boolean;
  /** How far its cover is from the middle of the date's photos, share of ground, 0..1. */
  readonly unlikeOthers: number;
}

/** Whether the review puts a photo before those that nothing speaks against. */
export const isDoubted = ({ flags, reasons }: Doubts): boolean => flags + reasons > 0;

/**
 * The photos of a rating date, the least trusted first: by flags, then by reasons, then by how far their cover is from
 * the date's median; in the order given where all are equal.
 *
 * Treatments have no part in it. Cover is far from the median for good reasons too (an untreated control), so that
 * distance only orders photos that are doubted alike. The order is a choice of this project, without a source.
 */
export function reviewOrder(photos: readonly ReviewCandidate[]): ReviewPlace[] {
  const classCount = photos[0]?.coverFraction.length ?? 0;
  const medians = Array.from({ length: classCount }, (_, i) =>
    median(photos.map(({ coverFraction }) => coverFraction[i] ?? 0)),
  );
  return photos
    .map(({ id, flags, reasons, coverFraction }) => ({
      id,
      flags,
      reasons,
      // what one class has too much another lacks: half the sum of differences is the ground that differs
      unlikeOthers: coverFraction.reduce((sum, share, i) => sum + Math.abs(share - medians[i]!), 0) / 2,
    }))
    .sort((a, b) => b.flags - a.flags || b.reasons - a.reasons || b.unlikeOthers - a.unlikeOthers)
    .map(({ id, flags, reasons, unlikeOthers }) => ({
      id,
      isDoubted: isDoubted({ flags, reasons }),
      unlikeOthers,
    }));
}
