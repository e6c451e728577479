import { useEffect, useState } from 'react';
import type { LabelMask } from '../../../core/raster/labelMask.ts';
import type { PhotoSummary } from '../../session/session.ts';
import { useSession } from '../../session/useSession.tsx';

/** The mask that belongs to a photo's figure; null while there is none. */
export function useMask({ id, work, figure }: PhotoSummary): LabelMask | null {
  const session = useSession();
  const [mask, setMask] = useState<LabelMask | null>(null);
  const madeAt = figure?.measuredAt ?? null;
  useEffect(() => {
    // while a photo is measured the last mask stays in sight
    if (madeAt === null || work !== null) return;
    let dropped = false;
    session.mask(id).then(
      (next) => {
        if (!dropped) setMask(next);
      },
      (error) => console.error(`no mask of photo ${id}`, error),
    );
    return () => {
      dropped = true;
    };
  }, [session, id, madeAt, work]);
  return mask;
}
