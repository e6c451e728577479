import { useEffect, useState } from 'react';
import type { Correcting } from '../../../session/correcting.ts';
import type { PhotoSummary } from '../../../session/session.ts';
import { useTreatmentCorrections } from './useTreatmentCorrections.ts';

/** How much was corrected by treatment, under codes until the names are asked for, which is recorded. */
export function useTreatmentShares(correcting: Correcting, photos: readonly PhotoSummary[]) {
  const [shown, setShown] = useState(false);
  const [reviewed, setReviewed] = useState<ReadonlySet<string>>(new Set());
  useEffect(() => {
    let left = false;
    correcting.reviewed().then(
      (ids) => {
        if (!left) setReviewed(ids);
      },
      (error) => console.error('reviews cannot be read', error),
    );
    return () => {
      left = true;
    };
  }, [correcting]);
  const shares = useTreatmentCorrections(photos, reviewed, shown);
  return {
    shares,
    shown,
    show() {
      if (!shares) return;
      void correcting
        .noteTreatmentsShown(shares.trialId, photos[0]?.ratingDate ?? null)
        .then(() => setShown(true));
    },
  };
}
