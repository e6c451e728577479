import { lazy, Suspense, useCallback, useEffect, useMemo, useState } from 'react';
import { Link, useLocation } from 'wouter';
import { app } from '../../../core/text/app.ts';
import { orderPhotos } from '../../components/photoOrder.ts';
import { usePhotoOrder } from '../../components/usePhotoOrder.ts';
import { useObservable, useSession } from '../../session/useSession.tsx';
import styles from './CoverScreen.module.css';
import { PhotoCover } from './PhotoCover.tsx';

const TeachScreen = lazy(async () => ({ default: (await import('./teach/TeachScreen.tsx')).TeachScreen }));

interface CoverScreenProps {
  readonly photoId: string;
  /** Told which photo is shown, so that the way back to it is known. */
  readonly onOpen: (photoId: string) => void;
}

/** One photo with its classes laid over it, its cover, and the marking of its measured area. */
export function CoverScreen({ photoId, onOpen }: CoverScreenProps) {
  const photos = useObservable(useSession().photos);
  const [order] = usePhotoOrder();
  const inOrder = useMemo(() => orderPhotos(photos, order), [photos, order]);
  const at = inOrder.findIndex(({ id }) => id === photoId);
  const photo = inOrder[at];
  useEffect(() => {
    if (photo) onOpen(photo.id);
  }, [photo, onOpen]);
  const [teaching, setTeaching] = useState(false);
  const [, navigate] = useLocation();
  const openPhoto = useCallback((id: string) => navigate(`/cover/${id}`), [navigate]);
  const leaveTeaching = useCallback(() => setTeaching(false), []);
  if (!photo) {
    return (
      <div className={styles.gone}>
        <p>{app.cover.gone}</p>
        <Link href="/photos">{app.cover.back}</Link>
      </div>
    );
  }
  if (teaching) {
    return (
      <Suspense fallback={null}>
        <TeachScreen photo={photo} onOpen={openPhoto} onDone={leaveTeaching} />
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
      onTeach={() => setTeaching(true)}
    />
  );
}
