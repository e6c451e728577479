import type { PhotoSummary } from '../../../session/session.ts';

/** Photos of the same plot and place of the frame that have a date and a frame, the earliest first. */
export function samePlace(photo: PhotoSummary, photos: readonly PhotoSummary[]): readonly PhotoSummary[] {
  const { plot, place } = photo;
  if (plot === null) return [];
  return photos
    .filter(
      (one) => one.plot === plot && one.place === place && one.ratingDate !== null && one.frame !== null,
    )
    .sort((a, b) => (a.ratingDate! < b.ratingDate! ? -1 : a.ratingDate! > b.ratingDate! ? 1 : 0));
}
