import type { PlotObservation } from '../statistics/plotObservation.ts';
import { groupBy } from '../trial/groupBy.ts';

/** One plot a treatment to look at, in the order of the treatments given. */
export interface TypicalPlots {
  /** Null where no block has all treatments, or there are no blocks. */
  readonly block: string | null;
  readonly plots: readonly PlotObservation[];
}

/**
 * Plots that show the middle: of the blocks that have every treatment, the one whose plots together lie nearest their
 * treatment means; without such a block the plot nearest the mean of each treatment. Pictures chosen by eye show what one
 * wishes to see.
 *
 * @param observations of one rating date
 * @param treatments those to be shown; one without a value is left out
 */
export function typicalPlots(
  observations: readonly PlotObservation[],
  treatments: readonly string[],
): TypicalPlots {
  const byTreatment = groupBy(observations, ({ treatment }) => treatment);
  const shown = treatments.filter((treatment) => byTreatment.has(treatment));
  const means = new Map(
    shown.map((treatment) => {
      const own = byTreatment.get(treatment)!;
      return [treatment, own.reduce((sum, { value }) => sum + value, 0) / own.length];
    }),
  );
  const distance = ({ treatment, value }: PlotObservation) => Math.abs(value - means.get(treatment)!);
  const nearest = (list: readonly PlotObservation[], treatment: string) =>
    list
      .filter((plot) => plot.treatment === treatment)
      .reduce<PlotObservation | null>(
        (best, plot) => (best === null || distance(plot) < distance(best) ? plot : best),
        null,
      );
  let best: { block: string; plots: PlotObservation[]; sum: number } | null = null;
  for (const [block, own] of groupBy(observations, (plot) => plot.block)) {
    if (block === null) continue;
    const plots = shown.flatMap((treatment) => nearest(own, treatment) ?? []);
    if (plots.length < shown.length) continue;
    const sum = plots.reduce((total, plot) => total + distance(plot), 0);
    if (best === null || sum < best.sum) best = { block, plots, sum };
  }
  if (best) return { block: best.block, plots: best.plots };
  return { block: null, plots: shown.flatMap((treatment) => nearest(observations, treatment) ?? []) };
}
