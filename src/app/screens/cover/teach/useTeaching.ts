import { useMemo } from 'react';
import { openTeaching, type Teaching } from '../../../session/teaching.ts';
import { usePart } from '../../../session/useSession.tsx';

/** The teaching of a rating date for as long as the caller is on screen; null until it is there. */
export function useTeaching(ratingDate: string | null): Teaching | null {
  return usePart(useMemo(() => openTeaching(ratingDate), [ratingDate]));
}
