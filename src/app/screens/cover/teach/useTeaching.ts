import { useEffect, useState } from 'react';
import type { Teaching } from '../../../session/teaching.ts';
import { useSession } from '../../../session/useSession.tsx';

/** The teaching of a rating date for as long as the caller is on screen; null until it is there. */
export function useTeaching(ratingDate: string | null): Teaching | null {
  const session = useSession();
  const [teaching, setTeaching] = useState<Teaching | null>(null);
  useEffect(() => {
    let left = false;
    let opened: Teaching | null = null;
    session.openTeaching(ratingDate).then(
      (next) => {
        opened = next;
        if (left) next.stop();
        else setTeaching(next);
      },
      (error) => console.error('teaching cannot be opened', error),
    );
    return () => {
      left = true;
      opened?.stop();
      setTeaching(null);
    };
  }, [session, ratingDate]);
  return teaching;
}
