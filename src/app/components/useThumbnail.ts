import { useEffect, useState } from 'react';
import { useSession } from '../session/useSession.tsx';

/**
 * Address of a photo's thumbnail; null until there is one.
 *
 * @param version asks again when it changes, since a thumbnail comes with the first measurement
 */
export function useThumbnail(id: string, version: string): string | null {
  const session = useSession();
  const [url, setUrl] = useState<string | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new version means a thumbnail may be there now
  useEffect(() => {
    let current: string | null = null;
    let dropped = false;
    session.thumbnail(id).then(
      (blob) => {
        if (dropped || !blob) return;
        current = URL.createObjectURL(blob);
        setUrl(current);
      },
      (error) => console.error(`no thumbnail of photo ${id}`, error),
    );
    return () => {
      dropped = true;
      if (current) URL.revokeObjectURL(current);
    };
  }, [session, id, version]);
  return url;
}
