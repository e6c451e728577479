import { useMemo } from 'react';
import { groupBy } from '../../../core/trial/groupBy.ts';
import type { PhotoSummary } from '../../session/session.ts';
import { useObservable, useSession } from '../../session/useSession.tsx';

/** A photo by its plot and place where it has them, else by its file's name. */
export function usePhotoNames(): (photoId: string) => string {
  const photos = useObservable(useSession().photos);
  return useMemo(() => {
    const spotOf = ({ plot, place }: PhotoSummary) => (place === null ? plot : `${plot}/${place}`);
    const keyOf = (photo: PhotoSummary) => `${photo.ratingDate} ${spotOf(photo)}`;
    const taken = groupBy(photos, keyOf);
    const names = new Map(
      photos.map((photo) => {
        const isOnly = photo.plot !== null && taken.get(keyOf(photo))!.length === 1;
        return [photo.id, isOnly ? spotOf(photo)! : photo.name];
      }),
    );
    return (photoId) => names.get(photoId) ?? photoId;
  }, [photos]);
}
