/** What of a photo decides its place among the others. */
export interface OrderedPhoto {
  readonly name: string;
  readonly plot: string | null;
  readonly ratingDate: string | null;
}

export type PhotoOrder = 'date' | 'plot';

/** Photos that share the first sign of the order. */
export interface PhotoGroup<T extends OrderedPhoto> {
  /** The rating date or plot; null for those without one, which come last. */
  readonly key: string | null;
  readonly photos: readonly T[];
}

const plots = new Intl.Collator('en', { numeric: true });

/** Plot names with numbers in their order of size, so that plot 9 stands before plot 10; unknown last. */
function comparePlots(a: string | null, b: string | null): number {
  if (a === null || b === null) return Number(a === null) - Number(b === null);
  return plots.compare(a, b);
}

/** Days in their order, unknown last. */
function compareDates(a: string | null, b: string | null): number {
  if (a === null || b === null) return Number(a === null) - Number(b === null);
  return a < b ? -1 : Number(a > b);
}

/** The photos by date and then plot, or by plot and then date. */
export function orderPhotos<T extends OrderedPhoto>(photos: readonly T[], order: PhotoOrder): readonly T[] {
  return photos.toSorted((a, b) => {
    const byDate = compareDates(a.ratingDate, b.ratingDate);
    const byPlot = comparePlots(a.plot, b.plot);
    return (order === 'date' ? byDate || byPlot : byPlot || byDate) || plots.compare(a.name, b.name);
  });
}

/** Groups of photos in order: one a rating date, or one a plot. */
export function groupPhotos<T extends OrderedPhoto>(
  photos: readonly T[],
  order: PhotoOrder,
): readonly PhotoGroup<T>[] {
  const groups = new Map<string | null, T[]>();
  for (const photo of orderPhotos(photos, order)) {
    const key = order === 'date' ? photo.ratingDate : photo.plot;
    const group = groups.get(key);
    if (group) group.push(photo);
    else groups.set(key, [photo]);
  }
  return [...groups].map(([key, members]) => ({ key, photos: members }));
}
