import { chartText } from '../../core/text/charts.ts';
import type { ChartTreatment, ChartWords, Spread, TreatmentMean } from './chartTypes.ts';

/** "2 growth regulator". */
export const nameOf = ({ treatment, label }: ChartTreatment): string =>
  chartText.treatmentName(treatment, label);

/** What every saved picture says. */
export function cautionOf({ experimental = false }: ChartWords): string[] {
  return experimental ? [chartText.experimental, chartText.caution] : [chartText.caution];
}

/** The ends of a mean's bar; null where there is none. */
export function barOf(mean: TreatmentMean, spread: Spread): readonly [low: number, high: number] | null {
  if (mean.mean === null) return null;
  if (spread === 'interval') return mean.low === null || mean.high === null ? null : [mean.low, mean.high];
  return mean.standardError === null
    ? null
    : [mean.mean - mean.standardError, mean.mean + mean.standardError];
}

/** Sentences on n and on what the bars are, true for the means at hand. */
export function spreadWords(
  means: readonly TreatmentMean[],
  spread: Spread,
  intervalPercent: number,
  manyDates: boolean,
): string[] {
  const drawn = means.filter(({ mean }) => mean !== null);
  if (drawn.length === 0) return [];
  const counts = drawn.map(({ n }) => n);
  const [fewest, most] = [Math.min(...counts), Math.max(...counts)];
  const without = drawn.filter((mean) => barOf(mean, spread) === null);
  const bars = spread === 'interval' ? chartText.spread.interval(intervalPercent) : chartText.spread[spread];
  if (without.length === drawn.length)
    return [
      most === 1 ? chartText.single : chartText.replicates(fewest, most, manyDates),
      ...(most === 1 ? [] : [chartText.spread.none]),
    ];
  return [
    bars,
    chartText.replicates(fewest, most, manyDates),
    ...(without.length > 0 ? [chartText.spread.some([...new Set(without.map(nameOf))])] : []),
  ];
}
