import type { PhotoAnnotation } from '../core/exchange/photoAnnotations.ts';
import { plotAndDateFromName } from '../core/photo-file/plotAndDateFromName.ts';

export interface PlotAndDate {
  readonly plot: string | null;
  readonly ratingDate: string | null;
}

/** From the annotations, else from the name. */
export function plotAndDateOf(name: string, annotation: PhotoAnnotation | undefined): PlotAndDate {
  const named = plotAndDateFromName(name);
  return {
    plot: annotation?.plot ?? named.plot,
    ratingDate: annotation?.ratingDate ?? named.ratingDate,
  };
}
