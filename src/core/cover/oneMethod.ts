import { groupBy } from '../trial/groupBy.ts';

/** A stored figure of a plot: what a comparison could use. */
export interface MethodOfPlot {
  readonly plot: string;
  readonly ratingDate: string;
  /** `automatic`, `corrected`, `points`, `adjusted` or `visual`. */
  readonly method: string;
}

/** Whether all plots of a rating date have a figure by the method that was chosen. */
export type OneMethodCheck =
  | { readonly ok: true; readonly method: string; readonly plots: number }
  /** These plots have no figure by the method; `instead` are methods that every plot has. */
  | {
      readonly ok: false;
      readonly code: 'method-missing';
      readonly method: string;
      readonly ratingDate: string;
      readonly plots: readonly string[];
      readonly instead: readonly string[];
    };

/**
 * A comparison uses one method for all its plots: plots measured in different ways differ by the method, not
 * only by the treatment. The check knows no treatments, so the choice can be made before their names show.
 *
 * @param figures all stored figures of the plots to be compared, any method
 * @param plots all plots to be compared; a plot without a figure at all on a date is a missing plot and no
 * matter of method
 * @returns one answer for each rating date, in their order
 */
export function checkOneMethod(
  figures: readonly MethodOfPlot[],
  plots: readonly string[],
  method: string,
): OneMethodCheck[] {
  const wanted = new Set(plots);
  const dates = groupBy(
    figures.filter(({ plot }) => wanted.has(plot)),
    ({ ratingDate }) => ratingDate,
  );
  return [...dates]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([ratingDate, onDate]) => {
      const byPlot = groupBy(onDate, ({ plot }) => plot);
      const hasAll = (name: string) =>
        [...byPlot.values()].every((own) => own.some((figure) => figure.method === name));
      if (hasAll(method)) return { ok: true, method, plots: byPlot.size };
      const missing = [...byPlot].filter(([, own]) => own.every((figure) => figure.method !== method));
      const instead = [...new Set(onDate.map((figure) => figure.method))].filter(hasAll).sort();
      return {
        ok: false,
        code: 'method-missing',
        method,
        ratingDate,
        plots: missing.map(([plot]) => plot).sort(),
        instead,
      };
    });
}
