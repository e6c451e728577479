import {
  createContext,
  type ReactNode,
  use,
  useEffect,
  useMemo,
  useState,
  useSyncExternalStore,
} from 'react';
import { type Observable, paced } from './observable.ts';
import type { PhotoSummary, Session } from './session.ts';
import type { OpenPart } from './sessionPart.ts';

const SessionContext = createContext<Session | null>(null);
const PhotosContext = createContext<Session['photos'] | null>(null);

/** Between two renderings of lists of photos: a batch changes them many times a second. */
const PHOTOS_PAUSE_MS = 100;

export function SessionProvider({ session, children }: { session: Session; children: ReactNode }) {
  const photos = useMemo(() => paced(session.photos, PHOTOS_PAUSE_MS), [session]);
  return (
    <SessionContext value={session}>
      <PhotosContext value={photos}>{children}</PhotosContext>
    </SessionContext>
  );
}

/** @throws Error outside a SessionProvider */
export function useSession(): Session {
  const session = use(SessionContext);
  if (!session) throw new Error('useSession needs a SessionProvider above it');
  return session;
}

/** The value now; renders again when it changes. */
export function useObservable<T>(observable: Observable<T>): T {
  return useSyncExternalStore(observable.subscribe, observable.get);
}

/** All photos in the order they were added; renders again when they change, but not for every change of a batch. */
export function usePhotos(): readonly PhotoSummary[] {
  const photos = use(PhotosContext);
  if (!photos) throw new Error('usePhotos needs a SessionProvider above it');
  return useObservable(photos);
}

/**
 * A part of the session for as long as the caller is on screen; null until it is there.
 *
 * What stops it from opening is thrown into the screen, unless the store is out of use, which the page says anyway.
 *
 * @param part the same one from render to render, or it is opened anew
 */
export function usePart<T extends { stop(): void }>(part: OpenPart<T>): T | null {
  const session = useSession();
  const [opened, setOpened] = useState<T | null>(null);
  const [failure, setFailure] = useState<{ readonly error: unknown } | null>(null);
  if (failure) throw failure.error;
  useEffect(() => {
    let left = false;
    let here: T | null = null;
    session.open(part).then(
      (next) => {
        here = next;
        if (left) next.stop();
        else setOpened(next);
      },
      (error) => {
        console.error('a part of the session cannot be opened', error);
        if (!left && session.storageState.get().state === 'ready') setFailure({ error });
      },
    );
    return () => {
      left = true;
      here?.stop();
      setOpened(null);
    };
  }, [session, part]);
  return opened;
}
