import { groupBy } from '../trial/groupBy.ts';
import { repeatableRandom, seedFor, shuffled } from '../trial/repeatableRandom.ts';

/** A photo that reference points could be called on. */
export interface ReferenceCandidate {
  readonly photo: string;
  readonly treatment: string;
  /** Whether a doubt put it into the review queue, now or earlier. */
  readonly isInReviewQueue: boolean;
  /** Whether a model was taught on it. */
  readonly hasStrokes: boolean;
}

/** The photos drawn in one treatment. */
export interface TreatmentReferencePhotos {
  readonly treatment: string;
  /** In the order drawn; fewer than asked where the treatment has no more. */
  readonly photos: readonly string[];
  /** Photos the draw was made from: those the points speak for. */
  readonly drawnFrom: number;
  /**
   * Photos left out, whose error the points do not show. One with strokes that is also in the queue counts
   * under strokes.
   */
  readonly withStrokes: number;
  readonly inReviewQueue: number;
}

/**
 * Draws photos for reference points at random within every treatment, the same again from the same seed.
 *
 * A model looks better than it is on photos it was taught on, and the review queue holds the photos that look
 * worst and are corrected first: neither says how good the other masks are. The result tells how many photos
 * the sample does not speak for.
 *
 * @param photosPerTreatment 1 or more
 */
export function drawReferencePhotos(
  candidates: readonly ReferenceCandidate[],
  photosPerTreatment: number,
  seed: number,
): TreatmentReferencePhotos[] {
  if (!(Number.isInteger(photosPerTreatment) && photosPerTreatment >= 1)) {
    throw new RangeError(`photos for each treatment must be 1 or more, got ${photosPerTreatment}`);
  }
  return [...groupBy(candidates, ({ treatment }) => treatment)].map(([treatment, all]) => {
    const eligible = all.filter(({ hasStrokes, isInReviewQueue }) => !hasStrokes && !isInReviewQueue);
    // by name first, so that the order in which photos were added does not matter
    const names = eligible.map(({ photo }) => photo).sort();
    const random = repeatableRandom(seedFor(seed, 'reference photos', treatment));
    const withStrokes = all.filter(({ hasStrokes }) => hasStrokes).length;
    return {
      treatment,
      photos: shuffled(names, random).slice(0, photosPerTreatment),
      drawnFrom: names.length,
      withStrokes,
      inReviewQueue: all.length - names.length - withStrokes,
    };
  });
}
