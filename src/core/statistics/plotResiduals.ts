import { designTerms, treatmentFactor } from './analysisModel.ts';
import { normalQuantile } from './distributions/normal.ts';
import { fitLinearModel } from './linearModel/linearModel.ts';
import type { PlotObservation } from './plotObservation.ts';
import { applyTransform } from './transforms.ts';
import type { AnalysisOptions } from './treatmentAnalysis.ts';

/** What the analysis left of a plot's value, on the scale of the analysis. */
export interface PlotResidual {
  readonly plot: string;
  readonly treatment: string;
  readonly fitted: number;
  readonly residual: number;
  /** Expected value of its rank in a standard normal sample: quantile of (rank - 3/8) / (n + 1/4). */
  readonly normalQuantile: number;
}

/**
 * Residuals of the analysis of one date, for looking at.
 *
 * @returns empty without error degrees of freedom: nothing is left of any value then
 * @throws RangeError for a block, row or column the design needs and a plot lacks
 * @see Blom 1958, Statistical Estimates and Transformed Beta-Variables, for the ranks
 */
export function plotResiduals(
  plots: readonly PlotObservation[],
  { design, transform = 'none' }: Pick<AnalysisOptions, 'design' | 'transform'>,
): PlotResidual[] {
  const response = plots.map(({ value }) => applyTransform(transform, value));
  const treatment = { name: 'treatment', factors: [treatmentFactor(plots)] };
  const fit = fitLinearModel(response, designTerms(plots, design, [treatment], false));
  if (fit.residualDegreesOfFreedom < 1) return [];
  const order = [...fit.residuals.keys()].sort((a, b) => fit.residuals[a]! - fit.residuals[b]! || a - b);
  const quantiles = new Float64Array(plots.length);
  order.forEach((index, rank) => {
    quantiles[index] = normalQuantile((rank + 1 - 3 / 8) / (plots.length + 1 / 4));
  });
  return plots.map((plot, index) => ({
    plot: plot.plot,
    treatment: plot.treatment,
    fitted: response[index]! - fit.residuals[index]!,
    residual: fit.residuals[index]!,
    normalQuantile: quantiles[index]!,
  }));
}
