import { lazy, Suspense, useCallback, useEffect, useMemo, useState } from 'react';
import { Link, Redirect, useLocation } from 'wouter';
import { app } from '../../../core/text/app.ts';
import { noteOpenPhoto, photoToOpen } from '../../components/lastPhoto.ts';
import { orderPhotos } from '../../components/photoOrder.ts';
import { usePhotoOrder } from '../../components/usePhotoOrder.ts';
import { usePhotos } from '../../session/useSession.tsx';
import styles from './CoverScreen.module.css';
import { PhotoCover } from './PhotoCover.tsx';

const TeachScreen = lazy(async () => ({ default: (await import('./teach/TeachScreen.tsx')).TeachScreen }));

const CorrectScreen = lazy(async () => ({
  default: (await import('./correct/CorrectScreen.tsx')).CorrectScreen,
}));

const DatesScreen = lazy(async () => ({ default: (await import('./dates/DatesScreen.tsx')).DatesScreen }));

/** One photo with its classes laid over it, its cover, and the marking of its measured area. */
export function CoverScreen({ params }: { params: Record<string, string | undefined> }) {
  const { id: photoId, mode } = params;
  const photos = usePhotos();
  const [order] = usePhotoOrder();
  const inOrder = useMemo(() => orderPhotos(photos, order), [photos, order]);
  const at = inOrder.findIndex(({ id }) => id === photoId);
  const photo = inOrder[at];
  useEffect(() => {
    if (photo) noteOpenPhoto(photo.id);
  }, [photo]);
  const [doing, setDoing] = useState<'looking' | 'teaching' | 'dates'>('looking');
  const [, navigate] = useLocation();
  const openPhoto = useCallback((id: string) => navigate(`/cover/${id}`), [navigate]);
  const openToCorrect = useCallback((id: string) => navigate(`/cover/${id}/${mode}`), [navigate, mode]);
  const leaveCorrecting = useCallback(
    () => navigate(mode === 'review' ? `/review/${photo?.ratingDate ?? ''}` : `/cover/${photoId}`),
    [navigate, mode, photo?.ratingDate, photoId],
  );
  const back = useCallback(() => setDoing('looking'), []);
  if (!photoId) return <Redirect to={`/cover/${photoToOpen(photos)}`} replace />;
  if (!photo) {
    return (
      <div className={styles.gone}>
        <p>{app.cover.gone}</p>
        <Link href="/photos">{app.cover.back}</Link>
      </div>
    );
  }
  if (mode === 'correct' || mode === 'review') {
    return (
      <Suspense fallback={null}>
        <CorrectScreen photo={photo} onOpen={openToCorrect} onDone={leaveCorrecting} />
      </Suspense>
    );
  }
  if (doing === 'dates') {
    return (
      <Suspense fallback={null}>
        <DatesScreen photo={photo} photos={photos} onDone={back} />
      </Suspense>
    );
  }
  if (doing === 'teaching') {
    return (
      <Suspense fallback={null}>
        <TeachScreen photo={photo} onOpen={openPhoto} onDone={back} />
      </Suspense>
    );
  }
  return (
    <PhotoCover
      key={photo.id}
      photo={photo}
      at={at}
      of={inOrder.length}
      previousId={inOrder[at - 1]?.id ?? null}
      nextId={inOrder[at + 1]?.id ?? null}
      onTeach={() => setDoing('teaching')}
      onCorrect={() => navigate(`/cover/${photo.id}/correct`)}
      onDates={() => setDoing('dates')}
    />
  );
}
