import { useEffect, useRef, useState } from 'react';
import { cutToFrame } from '../../components/cutToFrame.ts';
import type { Session } from '../../session/session.ts';
import { useSession } from '../../session/useSession.tsx';
import { type Pictures, pictureKey, type WantedPicture } from './paper/pictures.ts';

export interface PreparedPictures {
  readonly pictures: Pictures;
  readonly done: number;
  readonly all: number;
  /** Photos whose bytes are lost or cannot be drawn. */
  readonly failed: number;
}

const CUT_PX = 900;
const SMALL_PX = 300;

/**
 * Pictures for paper, prepared one by one and kept while the screen is open. Each is drawn anew, so that nothing a file says
 * of place or camera stays in it.
 */
export function usePictures(wanted: readonly WantedPicture[]): PreparedPictures {
  const session = useSession();
  const kept = useRef(new Map<string, string | null>());
  const [, setCount] = useState(0);
  const keys = wanted.map(pictureKey).join('\n');
  // biome-ignore lint/correctness/useExhaustiveDependencies: the same pictures are a new list at every render
  useEffect(() => {
    let left = false;
    (async () => {
      for (const one of wanted) {
        const key = pictureKey(one);
        if (left) return;
        if (kept.current.has(key)) continue;
        const made = await prepare(session, one).catch((error: unknown) => {
          console.warn(`photo ${one.photoId} cannot be drawn`, error);
          return null;
        });
        kept.current.set(key, made);
        if (!left) setCount((count) => count + 1);
      }
    })();
    return () => {
      left = true;
    };
  }, [session, keys]);
  const made = wanted.map((one) => [pictureKey(one), kept.current.get(pictureKey(one))] as const);
  const pictures = new Map(made.flatMap(([key, url]) => (url ? [[key, url] as const] : [])));
  return {
    pictures,
    done: made.filter(([, url]) => url !== undefined).length,
    all: wanted.length,
    failed: made.filter(([, url]) => url === null).length,
  };
}

async function prepare(session: Session, { photoId, kind }: WantedPicture): Promise<string | null> {
  const photo = session.photos.get().find(({ id }) => id === photoId);
  if (!photo) return null;
  if (kind === 'cut') {
    const { bytes } = await session.openPhoto(photoId);
    return addressOf((await cutToFrame(bytes, photo, CUT_PX)).jpeg);
  }
  const thumbnail = await session.thumbnail(photoId);
  if (!thumbnail) return null;
  const whole = { frame: null, figure: photo.figure };
  return addressOf((await cutToFrame(await thumbnail.arrayBuffer(), whole, SMALL_PX)).jpeg);
}

/** A picture as a data: address, which goes into a file as it is. */
function addressOf(blob: Blob): Promise<string> {
  return new Promise((done, fail) => {
    const reader = new FileReader();
    reader.onload = () => done(reader.result as string);
    reader.onerror = () => fail(reader.error ?? new Error('a picture cannot be read'));
    reader.readAsDataURL(blob);
  });
}
