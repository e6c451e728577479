import { useEffect, useState } from 'react';
import { decodeLevels, type PhotoLevels } from '../../canvas/photoLevels.ts';
import { useSession } from '../../session/useSession.tsx';

export type PhotoPicture =
  | { readonly state: 'loading' }
  | { readonly state: 'ready'; readonly levels: PhotoLevels }
  | { readonly state: 'failed' };

/** A photo decoded for looking at. Opening it also brings it to the front of the measuring. */
export function usePhotoPicture(id: string): PhotoPicture {
  const session = useSession();
  const [picture, setPicture] = useState<PhotoPicture>({ state: 'loading' });
  useEffect(() => {
    const stop = new AbortController();
    let opened: PhotoLevels | null = null;
    const open = async () => {
      const { bytes } = await session.openPhoto(id);
      opened = await decodeLevels(bytes, stop.signal);
      if (stop.signal.aborted) opened.close();
      else setPicture({ state: 'ready', levels: opened });
    };
    open().catch((error) => {
      if (stop.signal.aborted) return;
      console.warn(`photo ${id} cannot be shown`, error);
      setPicture({ state: 'failed' });
    });
    return () => {
      stop.abort();
      opened?.close();
      setPicture({ state: 'loading' });
    };
  }, [session, id]);
  return picture;
}
