import { COVER_METHODS, type CoverMethod } from '../exchange/coverTable.ts';
import { compareNames } from '../statistics/plotObservation.ts';
import { type Plot, plotKey } from '../trial/plot.ts';
import type { ReportPhoto } from './reportSource.ts';

/** One figure of one photo. */
export interface AppendixRow {
  readonly plot: string;
  readonly block: number | null;
  readonly treatment: number;
  readonly ratingDate: string;
  /** File name. */
  readonly photo: string;
  readonly place: number | null;
  readonly method: CoverMethod;
  /** By class; a class the figure was made without is not there. Percent with limits, null where the method has none. */
  readonly cover: ReadonlyMap<
    string,
    { readonly percent: number; readonly low: number | null; readonly high: number | null }
  >;
}

/** Every present figure of the trial's photos, by plot, date, photo and method. */
export function plotAppendix(plots: readonly Plot[], photos: readonly ReportPhoto[]): AppendixRow[] {
  const byKey = new Map(plots.map((plot) => [plotKey(plot.plot), plot]));
  const rows = photos.flatMap(({ name, plot, place, ratingDate, figures }) => {
    const own = plot === null ? undefined : byKey.get(plotKey(plot));
    if (!own || ratingDate === null) return [];
    return COVER_METHODS.flatMap((method): AppendixRow[] => {
      const figure = figures[method];
      if (!figure) return [];
      const percent = (fraction: number | undefined) => (fraction === undefined ? null : 100 * fraction);
      const cover = figure.cover.map(
        ({ classId, coverFraction, lowFraction, highFraction }) =>
          [
            classId,
            { percent: 100 * coverFraction, low: percent(lowFraction), high: percent(highFraction) },
          ] as const,
      );
      const { plot: plotName, block, treatment } = own;
      return [
        { plot: plotName, block, treatment, ratingDate, photo: name, place, method, cover: new Map(cover) },
      ];
    });
  });
  return rows.sort(
    (a, b) =>
      compareNames(a.plot, b.plot) ||
      compareNames(a.ratingDate, b.ratingDate) ||
      compareNames(a.photo, b.photo),
  );
}
