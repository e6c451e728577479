import { useEffect, useRef, useState } from 'react';
import type { Points } from '../../session/points.ts';

export type Picture =
  | { readonly state: 'loading' }
  | { readonly state: 'ready'; readonly picture: ImageBitmap }
  | { readonly state: 'failed' };

/**
 * The photo that is called, decoded once, and the next one decoded ahead. Pictures that are no longer needed are let go.
 */
export function usePictures(points: Points, photoId: string | null, nextId: string | null): Picture {
  const [shown, setShown] = useState<{ readonly id: string; readonly picture: Picture } | null>(null);
  const kept = useRef(new Map<string, Promise<ImageBitmap>>());
  useEffect(() => {
    if (photoId === null) return;
    let current = true;
    const pictures = kept.current;
    const decode = (id: string) => {
      const known = pictures.get(id) ?? decodePhoto(points, id);
      pictures.set(id, known);
      return known;
    };
    for (const [id, picture] of pictures) {
      if (id === photoId || id === nextId) continue;
      pictures.delete(id);
      letGo(picture);
    }
    decode(photoId).then(
      (picture) => {
        if (!current) return;
        setShown({ id: photoId, picture: { state: 'ready', picture } });
        if (nextId !== null) decode(nextId).catch(() => undefined); // said when it is its turn
      },
      (error) => {
        console.warn(`photo ${photoId} cannot be shown`, error);
        if (current) setShown({ id: photoId, picture: { state: 'failed' } });
      },
    );
    return () => {
      current = false;
    };
  }, [points, photoId, nextId]);
  useEffect(() => {
    const pictures = kept.current;
    return () => {
      for (const picture of pictures.values()) letGo(picture);
      pictures.clear();
    };
  }, []);
  return shown && shown.id === photoId ? shown.picture : { state: 'loading' };
}

/** @throws Error where the bytes are gone or cannot be decoded */
async function decodePhoto(points: Points, id: string): Promise<ImageBitmap> {
  const bytes = await points.bytes(id);
  if (!bytes) throw new Error('the browser no longer holds the bytes of this photo');
  return createImageBitmap(new Blob([bytes]));
}

const letGo = (picture: Promise<ImageBitmap>) =>
  void picture.then(
    (bitmap) => bitmap.close(),
    () => undefined,
  );
