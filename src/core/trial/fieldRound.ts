import type { CalendarDay } from './calendarDay.ts';
import { type Plot, plotKey } from './plot.ts';

/** One place of the frame in one plot, as a person with a phone comes by it. */
export interface FieldStop {
  readonly plot: Plot;
  /** 1 .. places in a plot */
  readonly place: number;
  /** The photo that counts, the one added last; null where there is none yet. */
  readonly photo: string | null;
  /** Left out on purpose: why. A photo taken all the same counts. */
  readonly skipped: string | null;
}

export interface FieldPhoto {
  readonly id: string;
  readonly plot: string | null;
  /** Null where a plot has one place only. */
  readonly place: number | null;
  readonly ratingDate: CalendarDay | null;
}

export interface SkippedPlace {
  readonly plot: string;
  readonly place: number;
  readonly reason: string;
}

/**
 * The stops of one rating date: plots in walking order, within them places.
 *
 * @param photos in the order they were added
 */
export function fieldStops(
  plots: readonly Plot[],
  placesPerPlot: number,
  ratingDate: CalendarDay,
  photos: readonly FieldPhoto[],
  skipped: readonly SkippedPlace[],
): FieldStop[] {
  const taken = new Map<string, string>();
  for (const { id, plot, place, ratingDate: date } of photos) {
    if (plot !== null && date === ratingDate) taken.set(stopKey(plot, place ?? 1), id);
  }
  const reasons = new Map(skipped.map(({ plot, place, reason }) => [stopKey(plot, place), reason]));
  return plots.flatMap((plot) =>
    Array.from({ length: placesPerPlot }, (_, index) => {
      const key = stopKey(plot.plot, index + 1);
      return { plot, place: index + 1, photo: taken.get(key) ?? null, skipped: reasons.get(key) ?? null };
    }),
  );
}

const stopKey = (plot: string, place: number) => `${plotKey(plot)}\n${place}`;

/** Whether a stop has neither photo nor reason to be without one. */
export const isOpenStop = ({ photo, skipped }: FieldStop): boolean => photo === null && skipped === null;

/**
 * Where to go on: the first open stop after this one, else the first before it.
 *
 * @param from index of the stop; -1 to begin
 * @returns an index, or null where every stop has its photo or was skipped
 */
export function nextOpenStop(stops: readonly FieldStop[], from: number): number | null {
  const after = stops.findIndex((stop, index) => index > from && isOpenStop(stop));
  const next = after >= 0 ? after : stops.findIndex((stop, index) => index < from && isOpenStop(stop));
  return next >= 0 ? next : null;
}
