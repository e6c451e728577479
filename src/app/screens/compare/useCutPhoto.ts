import { useEffect, useState } from 'react';
import { type CutPicture, cutToFrame } from '../../components/cutToFrame.ts';
import type { PhotoSummary } from '../../session/session.ts';
import { useSession } from '../../session/useSession.tsx';

/** A photo cut to its frame. */
export interface CutPhoto extends Omit<CutPicture, 'jpeg'> {
  readonly url: string;
}

/** The ground inside a photo's frame (all of it where there is none) as a picture of its own; null until it is there. */
export function useCutPhoto(photo: PhotoSummary | null): CutPhoto | 'not-there' | null {
  const session = useSession();
  const [cut, setCut] = useState<CutPhoto | 'not-there' | null>(null);
  const id = photo?.id ?? null;
  // biome-ignore lint/correctness/useExhaustiveDependencies: the photo of an id changes with every figure, its picture does not
  useEffect(() => {
    setCut(null);
    if (!photo) return;
    let left = false;
    let url: string | null = null;
    session
      .openPhoto(photo.id)
      .then(({ bytes }) => cutToFrame(bytes, photo))
      .then(
        ({ jpeg, ...made }) => {
          if (left) return;
          url = URL.createObjectURL(jpeg);
          setCut({ ...made, url });
        },
        // its bytes are lost, or the browser cannot draw them: said in the picture's place
        () => {
          if (!left) setCut('not-there');
        },
      );
    return () => {
      left = true;
      if (url) URL.revokeObjectURL(url);
    };
  }, [session, id]);
  return cut;
}
