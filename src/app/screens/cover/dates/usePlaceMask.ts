import { useEffect, useState } from 'react';
import type { LabelMask } from '../../../../core/raster/labelMask.ts';
import type { FixedPlaces } from '../../../session/fixedPlaces.ts';
import type { PhotoSummary } from '../../../session/session.ts';

/** The mask of a date with its corrections; null while there is none. */
export function usePlaceMask(
  places: FixedPlaces,
  { id, work, figure, figures }: PhotoSummary,
): LabelMask | null {
  const [mask, setMask] = useState<LabelMask | null>(null);
  const made = figure && [figure.id, figures.corrected?.id].join(' ');
  useEffect(() => {
    // while a photo is measured the last mask stays in sight
    if (made === null || work !== null) return;
    let dropped = false;
    places.mask(id).then(
      (next) => {
        if (!dropped) setMask(next?.mask ?? null);
      },
      (error) => console.error(`no mask of photo ${id}`, error),
    );
    return () => {
      dropped = true;
    };
  }, [places, id, made, work]);
  return mask;
}
