import type { CalendarDay } from './calendarDay.ts';
import type { Score } from './rating.ts';

/** What the board shows of one rated variable for one plot and date: how many scored it, and no score. */
export interface ScoreCell {
  readonly plot: string;
  readonly ratingDate: CalendarDay;
  /** People who scored it. */
  readonly scores: number;
  /** People who looked and noted that it is not to be scored. */
  readonly notRateable: number;
}

/** Row-major: plots in walking order, within them dates. Cost is linear in scores and cells. */
export function scoreBoard(
  scores: readonly Score[],
  variable: string,
  walkingOrder: readonly string[],
  ratingDates: readonly CalendarDay[],
): ScoreCell[] {
  const key = (plot: string, date: string) => `${plot}\n${date}`;
  const found = new Map<string, { scores: number; notRateable: number }>();
  for (const score of scores) {
    if (score.variable !== variable) continue;
    const at = key(score.plot, score.ratingDate);
    const counts = found.get(at) ?? { scores: 0, notRateable: 0 };
    counts[score.value === null ? 'notRateable' : 'scores'] += 1;
    found.set(at, counts);
  }
  return walkingOrder.flatMap((plot) =>
    ratingDates.map((ratingDate) => {
      const counts = found.get(key(plot, ratingDate)) ?? { scores: 0, notRateable: 0 };
      return { plot, ratingDate, ...counts };
    }),
  );
}
