import { useMemo } from 'react';
import { orderPhotos } from '../../components/photoOrder.ts';
import type { PhotoSummary } from '../../session/session.ts';
import { usePhotos } from '../../session/useSession.tsx';

/** Photos of a rating date in the order of their plots, and which of them stand before and after one of them. */
export function usePhotosOfDate(
  date: string | null,
  id: string,
): {
  readonly photos: readonly PhotoSummary[];
  readonly neighbours: { readonly previousId: string | null; readonly nextId: string | null };
} {
  const all = usePhotos();
  const photos = useMemo(
    () => orderPhotos(all, 'plot').filter(({ ratingDate }) => ratingDate === date),
    [all, date],
  );
  const at = photos.findIndex((one) => one.id === id);
  const neighbours = useMemo(
    () => ({ previousId: photos[at - 1]?.id ?? null, nextId: photos[at + 1]?.id ?? null }),
    [photos, at],
  );
  return { photos, neighbours };
}
