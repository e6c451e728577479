import type { CountedPhoto } from '../point-grid/countedPhoto.ts';
import { callsOf } from '../point-grid/pointCall.ts';
import type { ReferencePhoto } from './adjustment.ts';
import { type ErrorMatrix, errorMatrix } from './errorMatrix.ts';

/** One observer's points on a photo against its mask; null where it has no mask. */
export function maskErrorsOf(
  { places, calls, mask }: CountedPhoto,
  observer: string,
  classIds: readonly string[],
): ErrorMatrix | null {
  if (!mask) return null;
  const own = callsOf(calls, observer);
  const checked = places.flatMap(({ id, isOutside }) => {
    const [call, maskLabel] = [own.get(id), mask.labels.get(id)];
    return call && maskLabel !== undefined && !isOutside ? [{ maskLabel, classId: call.classId }] : [];
  });
  return errorMatrix(checked, classIds);
}

/**
 * The photos whose points say how a mask errs on others: counted, with a mask, of a known treatment, and none that a model
 * was taught on.
 */
export function referencePhotosOf(
  photos: readonly CountedPhoto[],
  observer: string,
  classIds: readonly string[],
): ReferencePhoto[] {
  return photos.flatMap((photo) => {
    const errors = photo.hasStrokes ? null : maskErrorsOf(photo, observer, classIds);
    if (!errors || errors.points === 0 || photo.treatment === null) return [];
    return [{ photo: photo.photoId, treatment: photo.treatment, counts: errors.counts }];
  });
}
