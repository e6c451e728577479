import { groupBy } from '../../../core/trial/groupBy.ts';
import type { TrialPhotosState } from '../../session/placePhotos.ts';
import type { PhotoSummary } from '../../session/session.ts';

export interface CamerasOfDate {
  readonly ratingDate: string;
  /** Most photos first. */
  readonly cameras: readonly { readonly device: string; readonly photos: number }[];
}

/** The rating dates whose photos come from more than one camera; photos that do not say theirs are left out. */
export function datesOfSeveralCameras(
  photos: readonly PhotoSummary[],
  { photos: placed, ratingDates }: Pick<TrialPhotosState, 'photos' | 'ratingDates'>,
): CamerasOfDate[] {
  const known = photos.flatMap(({ id, camera }) => {
    const ratingDate = placed.get(id)?.ratingDate;
    return camera?.device && ratingDate ? [{ ratingDate, device: camera.device }] : [];
  });
  const byDate = groupBy(known, ({ ratingDate }) => ratingDate);
  return ratingDates.flatMap((ratingDate) => {
    const cameras = [...groupBy(byDate.get(ratingDate) ?? [], ({ device }) => device)]
      .map(([device, own]) => ({ device, photos: own.length }))
      .sort((a, b) => b.photos - a.photos);
    return cameras.length > 1 ? [{ ratingDate, cameras }] : [];
  });
}
